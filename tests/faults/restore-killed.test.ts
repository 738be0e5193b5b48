/** Killed amid a restore: of the recording that was coming there is nothing, or all; and the record is whole. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { makeBackup } from '../../server/record/backup.ts';
import { openForReading } from '../../server/record/open-database.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { Restorer } from '../../server/record/restorer.ts';
import { inspect } from './inspect-record.ts';
import { invented } from './invented-reading.ts';
import { LOADER } from './kill-rounds.ts';

const CHILD = fileURLToPath(new URL('restoring-child.ts', import.meta.url));
const LISTENER = { durable: () => undefined, held: () => undefined };
/** Eight slices. */
const READINGS = 20_000;
const HERE = 40;
/** Two processes begin, each with three threads: on a busy machine that takes its time. */
const PATIENCE_MS = 60_000;

let folder = '';
let backup = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'restore-'));
  backup = join(folder, 'backup.sqlite');
  await record(join(folder, 'long'), READINGS);
  makeBackup(join(folder, 'long'), backup);
}, PATIENCE_MS);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function record(dataFolder: string, count: number): Promise<void> {
  const recorder = await Recorder.open(dataFolder, LISTENER);
  const id = recorder.begin('sensor', 1000 + count, '');
  for (let from = 1; from <= count; from += 2000) {
    const length = Math.min(2000, count + 1 - from);
    recorder.readings(
      id,
      Array.from({ length }, (_, at) => invented(from + at)),
    );
  }
  recorder.end(id, 9_000_000);
  await recorder.close();
}

/** @returns once it was killed, after some of the recording was written and before all of it was */
async function killAmidRestore(dataFolder: string, number: number): Promise<void> {
  const child = spawn(process.execPath, ['--import', LOADER, CHILD, dataFolder, backup], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const closed = once(child, 'close');
  while (!existsSync(join(dataFolder, 'record.half-taken'))) {
    if (child.exitCode !== null) throw new Error('it was over before anything was seen of it');
    await setTimeout(1);
  }
  const seen = openForReading(dataFolder);
  const last = seen.prepare('SELECT COALESCE(MAX(recording_id), 0) FROM reading').pluck();
  while (last.get() !== number) await setTimeout(1);
  seen.close();
  child.kill('SIGKILL');
  await closed;
}

test.concurrent.each([
  ['into an empty record', 0, 'as_it_was', 1],
  ['beside what is there', HERE, 'added', 2],
])(
  'killed while it restores %s',
  async (_where, here, outcome, number) => {
    const dataFolder = join(folder, outcome);
    if (here > 0) await record(dataFolder, here);
    await killAmidRestore(dataFolder, number);
    const recorder = await Recorder.open(dataFolder, LISTENER);
    expect(recorder.halfRemoved).toBe(number);
    expect(recorder.reader.recordingIds()).toEqual(here > 0 ? [1] : []);
    expect(recorder.isEmpty).toBe(here === 0);
    // The same again, to its end.
    const write = (file: string): Promise<void> => {
      copyFileSync(backup, file);
      return Promise.resolve();
    };
    const { recordings } = await new Restorer(recorder, () => 99).restore(write);
    expect(recordings).toMatchObject([{ outcome, recordingId: number, held: true }]);
    await recorder.close();
    const { readings, harm, lastIndexes } = inspect(dataFolder);
    expect(harm).toEqual([]);
    expect(readings).toBe(here + READINGS);
    expect(lastIndexes.get(number)).toBe(READINGS);
    expect(readdirSync(dataFolder).filter((name) => /unfinished|half/u.test(name))).toEqual([]);
  },
  PATIENCE_MS,
);
