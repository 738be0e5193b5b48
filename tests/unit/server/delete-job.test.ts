/** Deleting a job for good: what goes, what stays, and what the chain can still prove. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { FIRST_JOB } from '../../../protocol/job.ts';
import type { ReceivedReading } from '../../../protocol/reading.ts';
import { FACT_TABLES } from '../../../server/record/fact-tables.ts';
import { FactWriter } from '../../../server/record/fact-writer.ts';
import { openForWriting, RECORD_FILE } from '../../../server/record/open-database.ts';
import { packReadings } from '../../../server/record/packed-readings.ts';
import { RecordReader } from '../../../server/record/record-reader.ts';
import { ChainVerifier } from '../../../server/record/verify-chain.ts';
import type { Fact } from '../../../server/record/writer-messages.ts';

const SITE = 'Ropewalk 7, a customer';

let folder = '';
let database: Database.Database;
let writer: FactWriter;
let reader: RecordReader;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'delete-'));
  database = openForWriting(folder);
  writer = new FactWriter(database);
  reader = new RecordReader(database);
});
afterEach(() => {
  if (database.open) database.close();
  rmSync(folder, { recursive: true, force: true });
});

function commit(...facts: readonly Fact[]): void {
  database.transaction(() => {
    for (const fact of facts) writer.write(fact);
    writer.seal();
  })();
}

function reading(elapsedS: number): ReceivedReading {
  return {
    channel: 0,
    boot: 1,
    sequence: elapsedS,
    uptimeMs: elapsedS * 1000,
    arrivedS: elapsedS,
    elapsedS,
    pressurePa: 60 + elapsedS,
    temperatureC: null,
    condition: 'ok',
  };
}

/** A hundred readings, ten to a commit, each commit with a sheet entry in it; the second job begins at 55 s. */
function twoJobs(recordingId: number): void {
  commit({ kind: 'begin', recordingId, origin: 'sensor', startedAtMs: 1, title: '' });
  for (let from = 0; from < 100; from += 10) {
    const packed = packReadings(Array.from({ length: 10 }, (_, at) => reading(from + at)));
    const entry = { elapsedS: from, fields: { site: `${SITE} ${from}` } };
    commit({ kind: 'readings', recordingId, packed }, { kind: 'sheet', recordingId, entry });
  }
  const mark = { kind: 'job_begun', elapsedS: 55, text: '' } as const;
  commit({ kind: 'mark', recordingId, mark, madeBy: 'hand' });
  commit({ kind: 'end', recordingId, endedAtMs: 200_000 });
}

const beginMark = (recordingId: number) => reader.marks(recordingId)[0]?.id ?? -1;

function verified(recordingId: number) {
  const steps = new ChainVerifier(database).verify(recordingId);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value.verified;
  }
}

const times = (recordingId: number) => reader.readingsAfter(recordingId, 0, 1000).elapsedS;

describe('one of two jobs', () => {
  test('goes with its readings, entries and marks; the other stays to the last digit', () => {
    twoJobs(1);
    const before = reader.readingsAfter(1, 0, 55);
    commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
    expect(reader.readingsAfter(1, 0, 1000)).toEqual(before);
    expect(reader.marks(1)).toEqual([]);
    expect(reader.sheet(1).map(({ elapsedS }) => elapsedS)).toEqual([0, 10, 20, 30, 40, 50]);
    // 45 readings, 4 entries and the mark; what shared a link with them is told anew.
    expect(verified(1)).toMatchObject({ broken: null, deleted: 50, addedLater: 6 });
  });

  test('the first goes too, and the recording with the other job is still there', () => {
    twoJobs(1);
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
    expect(times(1)).toEqual(Array.from({ length: 45 }, (_, at) => 55 + at));
    expect(reader.recording(1)).toMatchObject({ id: 1, open: false });
    expect(verified(1)).toMatchObject({ broken: null, deleted: 61 });
  });

  test('and then the other', () => {
    twoJobs(1);
    commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 10 });
    expect(reader.recording(1)).toBeNull();
    expect(verified(1)).toMatchObject({ broken: null });
  });
});

test('who signed for a job whose begin was taken back goes with that stretch', () => {
  twoJobs(1);
  const mark = beginMark(1);
  const signOff = {
    beginMark: mark,
    fromS: 55,
    lastS: 99,
    name: 'Somebody',
    licence: '',
    remark: '',
    quoted: '',
    softwareVersion: '0',
    atMs: 1,
  };
  commit({ kind: 'sign_off', recordingId: 1, signOff });
  commit({ kind: 'take_mark_back', recordingId: 1, markId: mark, atMs: 2 });
  commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
  expect(database.prepare('SELECT COUNT(*) FROM sign_off').pluck().get()).toBe(0);
  const again = (recordingId: number) => {
    twoJobs(recordingId);
    const taken = beginMark(recordingId);
    commit({ kind: 'sign_off', recordingId, signOff: { ...signOff, beginMark: taken } });
    commit({ kind: 'take_mark_back', recordingId, markId: taken, atMs: 2 });
    const other = { kind: 'job_begun', elapsedS: 80, text: '' } as const;
    commit({ kind: 'mark', recordingId, mark: other, madeBy: 'hand' });
    commit({ kind: 'delete', recordingId, beginMark: FIRST_JOB, atMs: 9 });
  };
  again(2);
  expect(database.prepare('SELECT COUNT(*) FROM sign_off').pluck().get()).toBe(0);
  expect(verified(2).broken).toBeNull();
});

describe('what a sensor gives late', () => {
  const heard = (...elapsedS: readonly number[]) =>
    ({ kind: 'readings', recordingId: 1, packed: packReadings(elapsedS.map(reading)) }) as const;
  const indexes = () => reader.readingsAfter(1, 0, 1000).index;

  test('does not bring a deleted job back; what belongs to the other one is taken', () => {
    twoJobs(1);
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
    const before = times(1);
    commit(heard(3, 54.5, 55, 120));
    expect(times(1)).toEqual([...before, 55, 120]);
    // The same after a restart.
    writer = new FactWriter(database);
    commit(heard(0, 121, 54.9));
    expect(times(1)).toEqual([...before, 55, 120, 121]);
    expect(verified(1)).toMatchObject({ broken: null });
  });

  test('nothing of it may be left over', () => {
    twoJobs(1);
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
    const before = verified(1);
    commit(heard(1, 2));
    expect(verified(1)).toEqual(before);
  });

  test.each([
    ['at once', () => writer],
    ['after a restart', () => new FactWriter(database)],
  ])('has a number that no reading ever had: %s', (_when, next) => {
    twoJobs(1);
    commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
    expect(indexes().at(-1)).toBe(55);
    writer = next();
    commit(heard(12, 13));
    expect(indexes().slice(-2)).toEqual([101, 102]);
    expect(verified(1)).toMatchObject({ broken: null });
  });

  test('goes nowhere where the whole recording was deleted', () => {
    twoJobs(1);
    commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 10 });
    commit(heard(3, 300));
    expect(times(1)).toEqual([]);
  });
});

describe('a whole recording', () => {
  test('leaves nothing but its tombstone and hashes, and the recordings around it hold', () => {
    for (const recordingId of [1, 2, 3]) twoJobs(recordingId);
    const hashBefore = verified(3).hash;
    commit({ kind: 'delete', recordingId: 2, beginMark: beginMark(2), atMs: 9 });
    commit({ kind: 'delete', recordingId: 2, beginMark: FIRST_JOB, atMs: 10 });
    for (const { table } of Object.values(FACT_TABLES)) {
      const column = table === 'recording' ? 'id' : 'recording_id';
      const isOfNone = table.startsWith('sensor_') || table === 'prepared_sheet';
      if (isOfNone || table === 'tombstone') continue;
      const left = database.prepare(`SELECT COUNT(*) FROM ${table} WHERE ${column} = 2`).pluck();
      expect([table, left.get()]).toEqual([table, 0]);
    }
    expect(verified(2)).toMatchObject({ broken: null, facts: 2, deleted: 113 });
    for (const id of [1, 3]) expect(verified(id)).toMatchObject({ broken: null, deleted: 0 });
    expect(verified(3).hash).toBe(hashBefore);
  });

  test('its number is not given again', () => {
    twoJobs(1);
    commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 10 });
    expect(reader.lastRecordingId()).toBe(1);
  });

  test('what was entered is nowhere in the files any more', () => {
    twoJobs(1);
    database.pragma('wal_checkpoint(TRUNCATE)');
    const isAnywhere = () =>
      readdirSync(folder).some((name) => readFileSync(join(folder, name)).includes(SITE));
    expect(isAnywhere()).toBe(true);
    commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 10 });
    database.pragma('wal_checkpoint(TRUNCATE)');
    expect(isAnywhere()).toBe(false);
  });
});

describe('a prepared sheet', () => {
  const prepare = (prepared: number, usedS: number | null, site = SITE) =>
    commit({
      kind: 'prepared',
      sheet: {
        prepared,
        fields: { site },
        usedIn: usedS === null ? null : 1,
        usedS,
        atMs: 1,
      },
    });
  const there = () =>
    database.prepare('SELECT DISTINCT prepared FROM prepared_sheet ORDER BY 1').pluck().all();

  test('goes with the job that took it over, all its rows; others stay, and the chain holds', () => {
    twoJobs(1);
    prepare(1, null);
    prepare(2, null);
    prepare(3, null);
    prepare(1, 60);
    prepare(2, 10);
    commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
    expect(there()).toEqual([2, 3]);
    expect(verified(0)).toMatchObject({ broken: null, deleted: 2 });
    commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 10 });
    expect(there()).toEqual([3]);
    expect([verified(0), verified(1)]).toMatchObject([{ broken: null }, { broken: null }]);
  });

  test('that is discarded is nowhere in the files any more', () => {
    prepare(1, null, 'Anchor Lane 4');
    prepare(2, null, 'Mill Yard');
    commit({ kind: 'discard', prepared: 1, atMs: 9 });
    database.pragma('wal_checkpoint(TRUNCATE)');
    const file = readFileSync(join(folder, RECORD_FILE));
    expect([file.includes('Anchor Lane 4'), file.includes('Mill Yard')]).toEqual([false, true]);
    expect(verified(0)).toMatchObject({ broken: null, deleted: 1 });
  });
});

test('without a tombstone no fact goes, and none of another stretch', () => {
  twoJobs(1);
  commit(
    {
      kind: 'label',
      label: { sensorId: 'a', name: 'N', place: 'pump', displayStepPa: 1, givenAtMs: 1 },
    },
    {
      kind: 'calibration',
      calibration: { sensorId: 'a', calibratedOn: '2026-03-01', givenAtMs: 1 },
    },
  );
  for (const { table } of Object.values(FACT_TABLES)) {
    if (database.prepare(`SELECT COUNT(*) FROM ${table}`).pluck().get() === 0) continue;
    expect(() => database.exec(`DELETE FROM ${table}`)).toThrow(/without a tombstone|FOREIGN KEY/u);
  }
  commit({ kind: 'delete', recordingId: 1, beginMark: beginMark(1), atMs: 9 });
  expect(() => database.exec('DELETE FROM reading WHERE elapsed_s < 55')).toThrow(/tombstone/u);
});

test('a tombstone that somebody sets up in secret shows', () => {
  twoJobs(1);
  const copy = new Database(join(folder, RECORD_FILE));
  copy.exec("INSERT INTO tombstone VALUES (NULL, 1, 0, 0, NULL, '3', 10, 5)");
  copy.exec('DELETE FROM reading WHERE reading_index BETWEEN 11 AND 20');
  copy.close();
  expect(verified(1).broken).toMatchObject({ what: 'fact_outside' });
});
