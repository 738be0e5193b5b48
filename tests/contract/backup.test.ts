/** A copy of the record is whole and of one moment, and restoring it loses, doubles and passes off nothing. */
import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { z } from 'zod';
import { apiErrorSchema, recordingListSchema } from '../../protocol/api.ts';
import type { ReceivedReading } from '../../protocol/reading.ts';
import {
  RECORD_MEDIA_TYPE,
  type RestoredRecording,
  restoredSchema,
} from '../../protocol/restored.ts';
import { run as backUp } from '../../server/commands/backup-record.ts';
import { run as restoreRecord } from '../../server/commands/restore-record.ts';
import { run as verifyRecord } from '../../server/commands/verify-record.ts';
import { makeBackup } from '../../server/record/backup.ts';
import { prepareRecord } from '../../server/record/prepare.ts';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { Restorer } from '../../server/record/restorer.ts';
import { MIGRATIONS } from '../../server/record/schema.ts';
import { recordJob } from '../support/written-job.ts';
import { runBridge } from '../support/running-bridge.ts';
import { saidBy } from '../support/said-by-command.ts';

const listener = { durable: () => undefined, held: () => undefined };
/** Records that take a while to write, and a copy of the first, for all tests to copy. */
let once = '';
beforeAll(async () => {
  once = mkdtempSync(join(tmpdir(), 'backup-'));
  await record(join(once, 'here'), 5);
  await record(join(once, 'other'), 10);
  makeBackup(join(once, 'here'), join(once, 'backup.sqlite'));
});
afterAll(() => {
  rmSync(once, { recursive: true, force: true });
});

let folder = '';
let here = '';
let there = '';
let backup = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'backup-'));
  here = join(once, 'here');
  there = join(folder, 'there');
  backup = join(folder, 'backup.sqlite');
  copyFileSync(join(once, 'backup.sqlite'), backup);
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true, force: true });
});

const intoOthers = () => cpSync(join(once, 'other'), there, { recursive: true });

/** Two recordings; the second is a rehearsal. */
async function record(dataFolder: string, seed: number): Promise<void> {
  const recorder = await Recorder.open(dataFolder, listener);
  const label = { displayStepPa: null, givenAtMs: 5 };
  await recorder.label({ sensorId: 's0', name: 'Roof', place: 'system', ...label });
  await recordJob(recorder, { seed, origin: 'sensor', sensors: 1, every: 4 });
  const id = await recordJob(recorder, { seed: 26, origin: 'rehearsal', sensors: 1, every: 9 });
  await recorder.call(id, { trainee: 'T', cause: 'leak', surePercent: 60, elapsedS: 4 });
  await recorder.close();
}

const hashSchema = z.looseObject({ recordingId: z.int(), hash: z.string(), broken: z.unknown() });

async function hashesOf(dataFolder: string) {
  const { out } = await saidBy(verifyRecord, ['--data', dataFolder]);
  return out.split('\n').map((line) => hashSchema.parse(JSON.parse(line)));
}

/** One recorder for what a test restores: each costs two threads. */
async function restoring(
  work: (restore: () => Promise<RestoredRecording[]>, of: Recorder) => Promise<void>,
) {
  const recorder = await Recorder.open(there, listener);
  const restorer = new Restorer(recorder, () => 99);
  const write = (file: string): Promise<void> => {
    copyFileSync(backup, file);
    return Promise.resolve();
  };
  try {
    await work(async () => (await restorer.restore(write)).recordings, recorder);
  } finally {
    await recorder.close();
  }
}

function query(dataFolder: string, sql: string): unknown {
  const database = new Database(join(dataFolder, RECORD_FILE), { readonly: true });
  const found = database.prepare(sql).raw().all();
  database.close();
  return found;
}

function alter(file: string, sql: string): void {
  const database = new Database(file);
  const triggers = database
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'trigger'")
    .all();
  for (const { name } of triggers) database.exec(`DROP TRIGGER ${name}`);
  database.exec(sql);
  database.close();
}

describe('restored', () => {
  test('into an empty record: number for number, hash for hash; and again: nothing', async () => {
    await restoring(async (restore) => {
      expect((await restore()).map((one) => [one.outcome, one.recordingId, one.held])).toEqual([
        ['as_it_was', 1, true],
        ['as_it_was', 2, true],
      ]);
      expect((await restore()).map(({ outcome }) => outcome)).toEqual([
        'there_already',
        'there_already',
      ]);
    });
    const hashes = await hashesOf(here);
    expect(hashes).toHaveLength(3);
    expect(await hashesOf(there)).toEqual(hashes);
  });

  test('to other recordings: with new numbers, what was said of sensors, and where they were taken from', async () => {
    intoOthers();
    await restoring(async (restore, recorder) => {
      const label = { displayStepPa: null, givenAtMs: 1 };
      await recorder.label({ sensorId: 's0', name: 'Yard', place: 'pump', ...label });
      expect((await restore()).map((one) => [one.outcome, one.recordingId])).toEqual([
        ['added', 3],
        ['added', 4],
      ]);
      // Nothing that is said here changes what was recorded there.
      const [sensor] = recorder.reader.recording(3)?.sensors ?? [];
      expect(sensor?.label).toMatchObject({ name: 'Roof', place: 'system' });
      expect((await restore()).map((one) => [one.outcome, one.recordingId])).toEqual([
        ['there_already', 3],
        ['there_already', 4],
      ]);
    });
    const readings = (of: number) =>
      `SELECT reading_index, boot, sequence, uptime_ms, arrived_s, elapsed_s, pressure_pa, condition
       FROM reading WHERE recording_id = ${of}`;
    expect(query(there, readings(3))).toEqual(query(here, readings(1)));
    expect(query(there, readings(4))).toEqual(query(here, readings(2)));
    const hash = (await hashesOf(here))[1]?.hash;
    const taken = 'SELECT origin, recording_id_there, hash, held, at_ms FROM taken_from';
    expect(query(there, taken)).toEqual([
      ['sensor', 1, hash, 1, 99],
      ['rehearsal', 2, expect.any(String), 1, 99],
    ]);
    // The sign-off is still of the job that begins with its recording, the call of its rehearsal.
    expect(query(there, 'SELECT recording_id, begin_mark FROM sign_off')).toContainEqual([3, 0]);
    expect(query(there, 'SELECT recording_id FROM rehearsal_call')).toEqual([[2], [4]]);
    expect((await hashesOf(there)).every(({ broken }) => broken === null)).toBe(true);
  });

  test('a copy whose hashes do not hold, and that is said', async () => {
    intoOthers();
    alter(backup, "UPDATE mark SET text = 'other' WHERE kind = 'note' AND recording_id = 1");
    await restoring(async (restore) => {
      expect((await restore()).map((one) => [one.outcome, one.held])).toEqual([
        ['added', false],
        ['added', true],
      ]);
    });
    expect(query(there, 'SELECT held FROM taken_from')).toEqual([[0], [1]]);
  });

  test('of an older version, once', async () => {
    rmSync(backup);
    const old = new Database(backup);
    for (const migration of MIGRATIONS.slice(0, 3)) old.exec(migration);
    old.pragma('user_version = 3');
    old.exec(`INSERT INTO recording VALUES (1, 'sensor', 77, '');
      INSERT INTO reading VALUES (1, 1, 0, 1, 1, 1000, 0.5, 0.25, 12.125, NULL, 'ok')`);
    old.close();
    intoOthers();
    await restoring(async (restore) => {
      expect(await restore()).toMatchObject([{ outcome: 'added', recordingId: 3 }]);
      expect(await restore()).toMatchObject([{ outcome: 'there_already', recordingId: 3 }]);
    });
    const kept = 'SELECT pressure_pa FROM reading WHERE recording_id = 3';
    expect(query(there, kept)).toEqual([[12.125]]);
  });

  test('all but a recording that can’t be read', async () => {
    alter(backup, "UPDATE mark SET kind = 'nonsense' WHERE recording_id = 1");
    await restoring(async (restore) => {
      expect(await restore()).toMatchObject([
        { outcome: 'refused', recordingId: null, detail: expect.stringMatching(/kind/u) },
        { outcome: 'added', recordingId: 1, recordingIdThere: 2 },
      ]);
    });
    expect(query(there, 'SELECT id, origin FROM recording')).toEqual([[1, 'rehearsal']]);
  });

  test('all but a rehearsal whose call can’t be read: it would be in the way of all results', async () => {
    alter(backup, "UPDATE rehearsal_call SET cause = 'nonsense'");
    await restoring(async (restore) => {
      expect(await restore()).toMatchObject([
        { outcome: 'added', recordingIdThere: 1 },
        { outcome: 'refused', recordingIdThere: 2, detail: expect.stringMatching(/cause/u) },
      ]);
    });
    expect(query(there, 'SELECT COUNT(*) FROM rehearsal_call')).toEqual([[0]]);
  });

  test('wholly or not at all: where a fact of a recording can’t be written, nothing of it stands', async () => {
    intoOthers();
    // A sign-off of a job that begins at a mark which the copy lacks.
    alter(backup, 'UPDATE sign_off SET begin_mark = 4711 WHERE recording_id = 1');
    await restoring(async (restore) => {
      expect(await restore()).toMatchObject([
        { outcome: 'refused', detail: expect.stringMatching(/begin_mark/u) },
        { outcome: 'added', recordingId: 4 },
      ]);
    });
    expect(query(there, 'SELECT id FROM recording')).toEqual([[1], [2], [4]]);
    expect(query(there, 'SELECT COUNT(*) FROM reading WHERE recording_id = 3')).toEqual([[0]]);
    expect((await hashesOf(there)).every(({ broken }) => broken === null)).toBe(true);
  });

  test.each([
    ['something else', () => writeFileSync(backup, 'PK\u0003\u0004 and more'), /not a database/u],
    ['another database', () => alter(backup, 'DROP TABLE reading'), /something else/u],
    [
      'a newer record',
      () => alter(backup, `PRAGMA user_version = ${MIGRATIONS.length + 1}`),
      /newer version/u,
    ],
    [
      'a record with a view of its own',
      () => alter(backup, 'CREATE VIEW endless AS SELECT * FROM mark'),
      /no record has this: view endless/u,
    ],
    [
      'a record with another rule for its rows',
      () => alter(backup, 'ALTER TABLE mark ADD COLUMN more TEXT'),
      /no record has this: table mark/u,
    ],
    [
      'a record with a note of megabytes',
      () => alter(backup, "UPDATE mark SET text = printf('%.*c', 5000000, 'x') WHERE id = 2"),
      /mark\.text, where id is 2: a text of 5000000 bytes, and at most 2000/u,
    ],
    [
      'a record with a sheet of megabytes that are no words',
      () => alter(backup, "UPDATE sheet_entry SET fields = fields || printf('%.*c', 5000000, ' ')"),
      /sheet_entry\.fields, .* at most/u,
    ],
    ['half a file', () => truncateSync(backup, 100_000), /malformed|damaged/u],
    ['nothing', () => rmSync(backup), /there is no file/u],
  ])('not from %s', (_what, make, words) => {
    make();
    const work = join(folder, 'work');
    mkdirSync(work);
    if (existsSync(backup)) copyFileSync(backup, join(work, RECORD_FILE));
    expect(() => prepareRecord(here, work)).toThrow(words);
  });

  test('at a terminal: one line a recording, or what to do', async () => {
    const to = ['--port', '1', '--data', there];
    const { out, status } = await saidBy(restoreRecord, ['--from', backup, ...to]);
    expect(status).toBe(0);
    const recordings = out.split('\n').map((line): unknown => JSON.parse(line));
    expect(restoredSchema.parse({ recordings }).recordings).toHaveLength(2);
    writeFileSync(backup, 'PK\u0003\u0004 and more');
    const bad = await saidBy(restoreRecord, ['--from', backup, ...to]);
    expect(bad).toMatchObject({ status: 1, error: expect.stringMatching(/nothing of it was/u) });
    expect(query(there, 'SELECT id FROM recording')).toEqual([[1], [2]]);
    expect(readdirSync(there).filter((name) => name.startsWith('unfinished-'))).toEqual([]);
    const none = await saidBy(restoreRecord, ['--from', join(folder, 'none'), ...to]);
    expect(none).toMatchObject({ status: 1, error: expect.stringMatching(/no such file/u) });
  });
});

describe('a copy', () => {
  test('is not made over another file, nor half where there is no room for it', async () => {
    writeFileSync(backup, 'mine');
    const over = await saidBy(backUp, ['--data', here, '--to', backup]);
    expect(over).toMatchObject({ status: 1, error: expect.stringMatching(/there already/u) });
    const lost = join(folder, 'a file', 'b.sqlite');
    writeFileSync(join(folder, 'a file'), '');
    const nowhere = await saidBy(backUp, ['--data', here, '--to', lost]);
    expect(nowhere).toMatchObject({
      status: 1,
      error: expect.stringMatching(/could not be copied/u),
    });
    mkdirSync(join(folder, 'kept'));
    const kept = await saidBy(backUp, ['--data', here, '--to', join(folder, 'kept')]);
    expect(kept.status).toBe(0);
    expect(readdirSync(join(folder, 'kept'))).toEqual([
      expect.stringMatching(/^\d{4}(-\d\d){5}-ebbline-record\.sqlite$/u),
    ]);
    expect(readdirSync(folder).filter((name) => name.includes('unfinished'))).toEqual([]);
  });

  test('is of one moment while eight sensors are recorded, over HTTP, and is restored by a bridge', async () => {
    const busy = join(folder, 'busy');
    const recorder = await Recorder.open(busy, listener);
    const id = recorder.begin('sensor', 1000, '');
    let sent = 0;
    const timer = setInterval(() => {
      sent += 1;
      recorder.readings(
        id,
        Array.from({ length: 8 }, (_, channel) => readingAt(sent, channel)),
      );
    }, 10);
    await vi.waitFor(() => expect(recorder.reader.lastIndex(id)).toBeGreaterThan(200));
    const before = recorder.reader.lastIndex(id);
    rmSync(backup);
    const { status, out } = await saidBy(backUp, ['--data', busy, '--to', backup]);
    clearInterval(timer);
    await recorder.close();
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ recordings: 1, broken: [] });
    const copied = join(folder, 'copied');
    mkdirSync(copied);
    copyFileSync(backup, join(copied, RECORD_FILE));
    const [[count, last]] = z
      .tuple([z.tuple([z.int(), z.int()])])
      .parse(query(copied, 'SELECT COUNT(*), MAX(reading_index) FROM reading'));
    expect(count).toBe(last);
    expect(count).toBeGreaterThanOrEqual(before);

    const bridge = await runBridge({ dataFolder: there });
    const from = await runBridge({ dataFolder: copied });
    const taken = await fetch(new URL('api/backup', from.url));
    expect(taken.headers.get('content-disposition')).toMatch(/-ebbline-record\.sqlite"$/u);
    const answer = await fetch(new URL('api/restore', bridge.url), {
      method: 'POST',
      headers: { 'content-type': RECORD_MEDIA_TYPE },
      body: await taken.arrayBuffer(),
    });
    expect(restoredSchema.parse(await answer.json()).recordings).toMatchObject([
      { outcome: 'as_it_was', recordingId: 1 },
    ]);
    const list = await fetch(new URL('api/recordings', bridge.url));
    expect(recordingListSchema.parse(await list.json()).recordings).toHaveLength(1);
    const bad = await fetch(new URL('api/restore', bridge.url), {
      method: 'POST',
      headers: { 'content-type': RECORD_MEDIA_TYPE },
      body: 'no database at all',
    });
    expect(bad.status).toBe(400);
    expect(apiErrorSchema.parse(await bad.json()).code).toBe('bad_backup');
    for (const dataFolder of [there, copied]) {
      const rest = () => readdirSync(dataFolder).filter((name) => name.startsWith('unfinished-'));
      await vi.waitFor(() => expect(rest()).toEqual([]));
    }
    await bridge.stop();
    await from.stop();
  });
});

function readingAt(sequence: number, channel: number): ReceivedReading {
  return {
    channel,
    boot: 1,
    sequence,
    uptimeMs: sequence * 100,
    arrivedS: sequence / 10,
    elapsedS: sequence / 10,
    pressurePa: 100 / 3,
    temperatureC: null,
    condition: 'ok',
  };
}
