/** A recording of another record comes in slices: others write between them, and nobody ever sees half of it. */
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { makeBackup } from '../../../server/record/backup.ts';
import { FactWriter } from '../../../server/record/fact-writer.ts';
import { HalfTaken } from '../../../server/record/half-taken.ts';
import { openForWriting, RECORD_FILE } from '../../../server/record/open-database.ts';
import { openRecord } from '../../../server/record/open-record.ts';
import { packReadings } from '../../../server/record/packed-readings.ts';
import { RecordReader } from '../../../server/record/record-reader.ts';
import { Takings } from '../../../server/record/takings.ts';
import type { TakeOver } from '../../../server/record/taking.ts';
import { verifyAll } from '../../../server/record/verify-all.ts';
import type { Fact } from '../../../server/record/writer-messages.ts';
import { invented } from '../../faults/invented-reading.ts';

/** More than two slices, and a rest. */
const READINGS = 6001;
const UNKNOWN = { manufacturer: null, model: null, serial: null, firmware: null };

let once = '';
let folder = '';
let record: Database.Database;
let facts: FactWriter;
let half: HalfTaken;
let takings: Takings;

beforeAll(() => {
  once = mkdtempSync(join(tmpdir(), 'takings-'));
  const there = openForWriting(once);
  for (const recordingId of [1, 2]) aJob(there, new FactWriter(there), recordingId, READINGS);
  there.close();
});
afterAll(() => {
  rmSync(once, { recursive: true, force: true });
});
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'takings-'));
  record = openForWriting(folder);
  facts = new FactWriter(record);
  half = new HalfTaken(folder);
  takings = new Takings(record, half, (kind, upTo) => facts.reserve(kind, upTo));
});
afterEach(() => {
  if (record.open) record.close();
  rmSync(folder, { recursive: true, force: true });
});

function commit(of: Database.Database, writer: FactWriter, written: readonly Fact[]): void {
  of.transaction(() => {
    for (const fact of written) writer.write(fact);
    writer.seal();
  })();
}

function aJob(of: Database.Database, writer: FactWriter, recordingId: number, count: number): void {
  const mark = { kind: 'note', elapsedS: 3, text: 'drier changed' } as const;
  const identity = { id: 's0', name: 'Gauge', ...UNKNOWN };
  const packed = packReadings(Array.from({ length: count }, (_, at) => invented(at + 1)));
  commit(of, writer, [
    { kind: 'begin', recordingId, origin: 'sensor', startedAtMs: 1000 + recordingId, title: '' },
    { kind: 'sensor', recordingId, channel: 0, identity },
    { kind: 'readings', recordingId, packed },
    { kind: 'mark', recordingId, mark, madeBy: 'hand' },
    { kind: 'end', recordingId, endedAtMs: 9000 },
  ]);
}

function wish(recordingIdThere: number, recordingId: number, isAdded: boolean): TakeOver {
  const from = { format: 'backup', origin: 'sensor', recordingId: 1, startedAtMs: 1001 } as const;
  const taken = { ...from, title: '', hash: 'ab', held: true, softwareVersion: '', atMs: 5 };
  const file = join(once, RECORD_FILE);
  return { file, recordingIdThere, recordingId, taken: isAdded ? taken : null, named: null };
}

/** @returns what came of each, in order */
function takeAll(between: () => void = () => undefined): (string | null)[] {
  const over: (string | null)[] = [];
  for (const one of wishes) takings.add(one, (failure) => over.push(failure));
  while (!takings.isIdle) {
    takings.step();
    between();
  }
  return over;
}
let wishes: TakeOver[] = [];

function count(of: Database.Database, from: string): unknown {
  return of.prepare(`SELECT COUNT(*) FROM ${from}`).pluck().get();
}

function brokenIn(of: Database.Database): number[] {
  return verifyAll(of).flatMap(({ recordingId, broken }) => (broken === null ? [] : [recordingId]));
}

test('added beside one that is being recorded: seen by nobody before it is whole', () => {
  aJob(record, facts, 1, 10);
  const reader = new RecordReader(record);
  wishes = [wish(1, 3, true)];
  const seen: unknown[] = [];
  let isBegun = false;
  const over = takeAll(() => {
    if (!isBegun)
      commit(record, facts, [
        { kind: 'begin', recordingId: 4, origin: 'sensor', startedAtMs: 7, title: '' },
      ]);
    isBegun = true;
    const packed = packReadings([invented(11)]);
    commit(record, facts, [{ kind: 'readings', recordingId: 4, packed }]);
    seen.push([reader.recording(3) === null, existsSync(join(folder, 'record.half-taken'))]);
  });
  expect(over).toEqual([null]);
  expect(seen).toEqual([
    [true, true],
    [true, true],
    [false, false],
  ]);
  expect(count(record, 'reading WHERE recording_id = 3')).toBe(READINGS);
  expect(count(record, 'reading WHERE recording_id = 4')).toBe(3);
  expect(reader.marks(3)).toMatchObject([{ text: 'drier changed' }]);
  expect(brokenIn(record)).toEqual([]);
  expect(record.pragma('foreign_key_check')).toEqual([]);
  expect(record.pragma('foreign_keys', { simple: true })).toBe(1);
});

test('as it was, link for link, also where something is recorded meanwhile: that has other numbers', () => {
  wishes = [wish(0, 0, false), wish(1, 1, false), wish(2, 2, false)];
  let isBegun = false;
  const over = takeAll(() => {
    if (!isBegun) aJob(record, facts, 3, 5);
    isBegun = true;
  });
  expect(over).toEqual([null, null, null]);
  const there = new Database(join(once, RECORD_FILE), { readonly: true });
  for (const sql of ['reading', 'sensor', 'mark', 'chain_link'].map(
    (table) => `SELECT * FROM ${table} WHERE recording_id < 3`,
  ))
    expect(record.prepare(sql).raw().all()).toEqual(there.prepare(sql).raw().all());
  there.close();
  expect(record.prepare('SELECT id FROM mark').pluck().all()).toEqual([1, 2, 3]);
  expect(brokenIn(record)).toEqual([]);
});

test('where its last slice can’t be written nothing of it stays, and the next one comes', () => {
  aJob(record, facts, 1, 10);
  record.exec(`CREATE TRIGGER full BEFORE INSERT ON mark WHEN NEW.recording_id = 2
    BEGIN SELECT RAISE(ABORT, 'no room'); END`);
  wishes = [wish(1, 2, true)];
  expect(takeAll()).toEqual(['no room']);
  expect(count(record, 'reading WHERE recording_id = 2')).toBe(0);
  wishes = [wish(2, 3, true)];
  expect(takeAll()).toEqual([null]);
  expect(record.prepare('SELECT DISTINCT recording_id FROM reading').pluck().all()).toEqual([1, 3]);
  expect(existsSync(join(folder, 'record.half-taken'))).toBe(false);
  expect(brokenIn(record)).toEqual([]);
});

test('what was begun and never ended is gone after the next start, which says so; facts still stay', () => {
  aJob(record, facts, 1, 10);
  takings.add(wish(1, 2, true), () => undefined);
  takings.step();
  expect(count(record, 'reading WHERE recording_id = 2')).toBe(2500);
  const rules = "sqlite_schema WHERE type = 'trigger'";
  const before = record.prepare(`SELECT name, sql FROM ${rules} ORDER BY 1`).all();
  record.close();
  const opened = openRecord(folder, 1);
  expect(opened.halfRemoved).toBe(2);
  const { database } = opened;
  expect(count(database, 'reading')).toBe(10);
  expect(database.prepare(`SELECT name, sql FROM ${rules} ORDER BY 1`).all()).toEqual(before);
  expect(() => database.exec('DELETE FROM reading')).toThrow(/without a tombstone/u);
  database.close();
  opened.unlock();
  const again = openRecord(folder, 1);
  expect(again.halfRemoved).toBeNull();
  again.database.close();
  again.unlock();
});

test('what is said to be half and is whole stays, and so does all where nobody knows what is half', () => {
  aJob(record, facts, 1, 10);
  half.begin(1);
  record.close();
  const opened = openRecord(folder, 1);
  expect(opened.halfRemoved).toBeNull();
  expect(count(opened.database, 'reading')).toBe(10);
  opened.database.close();
  opened.unlock();
  // The power went as it was written.
  writeFileSync(join(folder, 'record.half-taken'), '');
  const again = openRecord(folder, 1);
  expect(count(again.database, 'reading')).toBe(10);
  expect(existsSync(join(folder, 'record.half-taken'))).toBe(false);
  again.database.close();
  again.unlock();
});

test('a copy that is made meanwhile has nothing of it', () => {
  aJob(record, facts, 1, 10);
  takings.add(wish(1, 2, true), () => undefined);
  takings.step();
  mkdirSync(join(folder, 'copy'));
  const file = join(folder, 'copy', RECORD_FILE);
  expect(makeBackup(folder, file)).toMatchObject({ recordings: 1, broken: [] });
  const copy = new Database(file, { readonly: true });
  expect(count(copy, 'reading')).toBe(10);
  copy.close();
  while (!takings.isIdle) takings.step();
  expect(count(record, 'reading WHERE recording_id = 2')).toBe(READINGS);
});

test('a number of which readings are left is not given to another recording', () => {
  takings.add(wish(1, 7, true), () => undefined);
  takings.step();
  expect(new RecordReader(record).lastRecordingId()).toBe(7);
});
