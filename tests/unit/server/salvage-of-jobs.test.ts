/** A record with jobs in it is saved from a damaged file: what was deleted on purpose is not lost. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { FIRST_JOB } from '../../../protocol/job.ts';
import { salvagesOf } from '../../../protocol/salvage-note.ts';
import { FactWriter } from '../../../server/record/fact-writer.ts';
import { openForWriting, RECORD_FILE } from '../../../server/record/open-database.ts';
import { packReadings } from '../../../server/record/packed-readings.ts';
import { RecordReader } from '../../../server/record/record-reader.ts';
import { salvage } from '../../../server/record/salvage/salvage.ts';
import type { Fact } from '../../../server/record/writer-messages.ts';
import { invented } from '../../faults/invented-reading.ts';

let folder = '';
let database: Database.Database;
let saved: Database.Database | null = null;

function commit(...facts: readonly Fact[]): void {
  const writer = new FactWriter(database);
  database.transaction(() => {
    for (const fact of facts) writer.write(fact);
    writer.seal();
  })();
}

const marks = (of: Database.Database) => new RecordReader(of).marks(1);

/** A hundred readings, ten to a commit, each commit with a sheet entry in it; a second job begins among them. */
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'saved-'));
  database = openForWriting(folder);
  commit({ kind: 'begin', recordingId: 1, origin: 'sensor', startedAtMs: 1, title: '' });
  for (let from = 1; from < 101; from += 10) {
    const packed = packReadings(Array.from({ length: 10 }, (_, at) => invented(from + at)));
    const entry = { elapsedS: invented(from).elapsedS, fields: { site: 'Ropewalk' } };
    const write = { kind: 'readings', recordingId: 1, packed } as const;
    commit(write, { kind: 'sheet', recordingId: 1, entry });
  }
  const mark = { kind: 'job_begun', elapsedS: invented(55).elapsedS, text: '' } as const;
  commit({ kind: 'mark', recordingId: 1, mark, madeBy: 'hand' });
});
afterEach(() => {
  database.close();
  saved?.close();
  rmSync(folder, { recursive: true, force: true });
});

function salvaged() {
  const into = join(folder, 'saved.sqlite');
  const share = salvage(join(folder, RECORD_FILE), into, 'aside', 5);
  saved = new Database(into);
  return { ...share, saved };
}

/** As damage does, without the record's knowledge. */
function lose(where: string): void {
  const triggers = database
    .prepare("SELECT 'DROP TRIGGER ' || name FROM sqlite_schema WHERE type = 'trigger'")
    .pluck()
    .all();
  for (const drop of triggers) database.exec(String(drop));
  database.exec(`DELETE FROM reading WHERE ${where}`);
}

test('a deleted job counts as lost neither at the beginning nor in what is said of the rest', () => {
  commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
  const { readings, otherFacts } = salvaged();
  expect(readings).toEqual({ saved: 46, atLeast: 46 });
  expect(otherFacts.saved).toBe(otherFacts.atLeast);
});

test('of what was not deleted it is told how much is lost', () => {
  commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
  lose('reading_index BETWEEN 70 AND 79');
  const found = salvaged();
  expect(found.readings).toEqual({ saved: 36, atLeast: 46 });
  expect(salvagesOf(marks(found.saved))).toMatchObject([{ readings: found.readings }]);
});

test('where the links are lost as well, no more is said to be lost than surely is', () => {
  commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
  lose('reading_index BETWEEN 70 AND 79');
  database.exec('DELETE FROM chain_link WHERE number < 4');
  const { saved, atLeast } = salvaged().readings;
  expect(saved).toBe(36);
  expect(atLeast).toBeLessThanOrEqual(46);
});

test('each job has the note, so that it stays with one when the other is deleted', () => {
  lose('reading_index = 20');
  const found = salvaged();
  const { saved: file } = found;
  database.close();
  database = file;
  const [begin] = marks(file).filter(({ kind }) => kind === 'job_begun');
  commit({ kind: 'delete', recordingId: 1, beginMark: begin?.id ?? -1, atMs: 9 });
  expect(salvagesOf(marks(file))).toMatchObject([{ readings: { saved: 99, atLeast: 100 } }]);
  commit({ kind: 'delete', recordingId: 1, beginMark: FIRST_JOB, atMs: 9 });
  expect(marks(file)).toEqual([]);
});
