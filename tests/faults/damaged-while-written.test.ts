/** Damage that shows only while the record is written: nothing is acknowledged, and nothing is lost. */
import { mkdtempSync, readdirSync, rmSync, truncateSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { RecordMessage } from '../../protocol/stream.ts';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { Recorder, type RecorderListener } from '../../server/record/recorder.ts';
import { inspect } from './inspect-record.ts';
import { invented } from './invented-reading.ts';

let folder = '';
const durable = vi.fn<(message: RecordMessage) => void>();
const damaged = vi.fn<NonNullable<RecorderListener['damaged']>>();
const open = () => Recorder.open(folder, { durable, held: () => undefined, damaged });
const row = (first: number, count: number) =>
  Array.from({ length: count }, (_, at) => invented(first + at));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'harmed-'));
  durable.mockClear();
  damaged.mockClear();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The table's root is nowhere from now on; an open connection learns of it at its next statement. */
function harm(): void {
  const database = new Database(join(folder, RECORD_FILE));
  database.unsafeMode();
  database.pragma('writable_schema = ON');
  database.exec("UPDATE sqlite_schema SET rootpage = 999999 WHERE name = 'reading'");
  database.pragma('schema_version = 1000');
  database.close();
}

async function harmedWhileWritten(): Promise<void> {
  const recorder = await open();
  const recordingId = recorder.begin('sensor', 1000, '');
  recorder.readings(recordingId, row(1, 50));
  await recorder.settled();
  harm();
  durable.mockClear();
  recorder.readings(recordingId, row(51, 10));
  await expect.poll(() => damaged.mock.calls.length).toBe(1);
  recorder.readings(recordingId, row(61, 10));
  await recorder.close();
  expect(durable).not.toHaveBeenCalled();
  expect(damaged).toHaveBeenLastCalledWith(
    expect.objectContaining({ file: join(folder, 'record.unwritten') }),
  );
}

test('facts go to a file beside it, and into the record that the next start makes of it', async () => {
  await harmedWhileWritten();
  const again = await open();
  expect(again.setAside?.readings.saved).toBe(50);
  await again.close();
  expect(inspect(folder)).toMatchObject({ readings: 70, harm: [] });
  expect(readdirSync(folder).filter((name) => name.startsWith('record.unwritten'))).toEqual([
    expect.stringMatching(/^record\.unwritten-until-\d{4}-/u),
  ]);
});

test('the last of them is torn by a power cut: the others are there', async () => {
  await harmedWhileWritten();
  const beside = join(folder, 'record.unwritten');
  truncateSync(beside, statSync(beside).size - 5);
  await (await open()).close();
  expect(inspect(folder)).toMatchObject({ readings: 60, harm: [] });
});
