/**
 * Looks another record through before anything of it is taken over: whether it can be read to its last fact,
 * whether its chains hold, and what of it is here already.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { ProblemError } from '../../protocol/problems.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { FACT_TABLES } from './fact-tables.ts';
import { openForReading, openForWriting, RECORD_FILE } from './open-database.ts';
import { beyondBounds } from './own-bounds.ts';
import { foreignPart } from './own-schema.ts';
import { PreparedSheets } from './prepared-sheets.ts';
import { RecordReader } from './record-reader.ts';
import { RecordingFacts } from './recording-facts.ts';
import { thereAlready } from './there-already.ts';
import { verifyAll } from './verify-all.ts';

const preparedRecordingSchema = z.strictObject({
  recording: recordingSchema,
  /** Of its last link; empty where it has none. */
  hash: z.string(),
  held: z.boolean(),
  /** Its number in this record, or null. */
  hereAs: z.int().nullable(),
  /** What can't be read of it; null: all can. */
  unreadable: z.string().nullable(),
});
export type PreparedRecording = z.infer<typeof preparedRecordingSchema>;

export const preparedSchema = z.strictObject({
  file: z.string(),
  /** Every number that facts, tombstones or links stand under, ascending. */
  numbers: z.array(z.int()),
  recordings: z.array(preparedRecordingSchema),
});
export type Prepared = z.infer<typeof preparedSchema>;

const AT_A_TIME = 5000;

/**
 * Brings the record in the work folder up to date, which is a copy that nobody else has.
 * @param dataFolder of this record
 * @throws ProblemError `bad_backup`, `record_from_newer_version`
 */
export function prepareRecord(dataFolder: string, workFolder: string): Prepared {
  const file = join(workFolder, RECORD_FILE);
  const wasChained = refuseOther(file);
  // Brings it up to date; from then on it is only read.
  upToDate(workFolder);
  const there = openForReading(workFolder);
  const here = openForReading(dataFolder);
  try {
    const reader = new RecordReader(there);
    const verified = new Map(verifyAll(there).map((found) => [found.recordingId, found]));
    new PreparedSheets(there).list();
    const recordings = reader.recordings(Number.MAX_SAFE_INTEGER).reverse();
    return {
      file,
      numbers: numbersIn(there),
      recordings: recordings.map((recording) => {
        const found = verified.get(recording.id);
        const hash = found?.hash ?? '';
        return {
          recording,
          hash,
          held: found?.broken === null,
          hereAs: thereAlready(there, here, recording.id, wasChained ? hash : null),
          unreadable: whatCannotBeRead(there, reader, recording.id),
        };
      }),
    };
  } catch (error) {
    throw asBadBackup(error);
  } finally {
    there.close();
    here.close();
  }
}

/** @returns whether its facts were chained as they were recorded */
function refuseOther(file: string): boolean {
  if (!existsSync(file)) throw new ProblemError('bad_backup', 'there is no file');
  let database: Database.Database | null = null;
  try {
    database = new Database(file, { fileMustExist: true });
    // A file from elsewhere may hold anything: none of its own rules are run.
    database.pragma('trusted_schema = OFF');
    const tables = z
      .array(z.string())
      .parse(database.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all());
    if (!tables.includes(FACT_TABLES.begin.table) || !tables.includes(FACT_TABLES.reading.table)) {
      throw new ProblemError('bad_backup', 'it is a database of something else');
    }
    const foreign = foreignPart(database);
    if (foreign !== null) throw new ProblemError('bad_backup', `no record has this: ${foreign}`);
    const beyond = beyondBounds(database);
    if (beyond !== null) throw new ProblemError('bad_backup', beyond);
    const faults = database.prepare('PRAGMA integrity_check(3)').pluck().all();
    if (faults.join() === 'ok') return tables.includes('chain_link');
    throw new ProblemError('bad_backup', `the file is damaged: ${faults.join('; ').slice(0, 300)}`);
  } catch (error) {
    throw asBadBackup(error);
  } finally {
    database?.close();
  }
}

function upToDate(workFolder: string): void {
  try {
    openForWriting(workFolder).close();
  } catch (error) {
    throw asBadBackup(error);
  }
}

function asBadBackup(error: unknown): ProblemError {
  const isSaid =
    error instanceof ProblemError &&
    (error.code === 'bad_backup' || error.code === 'record_from_newer_version');
  if (isSaid) return error;
  const message = error instanceof Error ? error.message : String(error);
  return new ProblemError('bad_backup', message.slice(0, 300), { cause: error });
}

function numbersIn(database: Database.Database): number[] {
  const all = database.prepare(
    `SELECT id FROM recording UNION SELECT recording_id FROM tombstone
     UNION SELECT recording_id FROM chain_link ORDER BY 1`,
  );
  return z.array(z.int()).parse(all.pluck().all());
}

/** A fact that can't be read would be in the way for ever: facts are never deleted one by one. */
function whatCannotBeRead(
  database: Database.Database,
  reader: RecordReader,
  recordingId: number,
): string | null {
  const facts = new RecordingFacts(database);
  try {
    reader.marks(recordingId);
    reader.sheet(recordingId);
    reader.takenBack(recordingId);
    reader.seenAlerts(recordingId);
    reader.signOffs(recordingId);
    reader.archivedJobs(recordingId);
    reader.deletedStretches(recordingId);
    facts.marksTakenBack(recordingId);
    facts.rehearsed(recordingId);
    for (let after = 0; ;) {
      const readings = facts.readingsAfter(recordingId, after, AT_A_TIME);
      const last = readings.at(-1);
      if (last === undefined) return null;
      after = last.index;
    }
  } catch (error) {
    const message = error instanceof z.ZodError ? firstIssue(error) : String(error);
    return message.slice(0, 300);
  }
}

function firstIssue(error: z.ZodError): string {
  const [issue] = error.issues;
  return issue === undefined ? error.message : `${issue.path.join('.')}: ${issue.message}`;
}
