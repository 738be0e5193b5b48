/** Opens the record's database file, brings it up to date, and says plainly why if it can't. */
import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ProblemError } from '../../protocol/problems.ts';
import { linkEarlierFacts } from './link-earlier-facts.ts';
import { MIGRATIONS } from './schema.ts';

export const RECORD_FILE = 'record.sqlite';

/** The version from which on facts are chained as they are written. */
const CHAINED_SINCE = 6;

/** Opens for writing; creates folder and file where they are missing. */
export function openForWriting(dataFolder: string): Database.Database {
  const file = join(dataFolder, RECORD_FILE);
  let database: Database.Database | null = null;
  try {
    mkdirSync(dataFolder, { recursive: true });
    database = new Database(file);
    const version = knownVersion(database, file);
    database.pragma('journal_mode = WAL');
    // A reading counts as recorded only once it would survive a power cut.
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    // What is deleted for good is overwritten, not only forgotten.
    database.pragma('secure_delete = ON');
    bringUpToDate(database, file, version);
    return database;
  } catch (error) {
    database?.close();
    throw asProblem(error, file);
  }
}

/** Opens for reading beside the writer, which has brought it up to date; or without one, if it is. */
export function openForReading(dataFolder: string): Database.Database {
  const file = join(dataFolder, RECORD_FILE);
  let database: Database.Database | null = null;
  try {
    database = new Database(file, { readonly: true, fileMustExist: true });
    const version = knownVersion(database, file);
    if (version === MIGRATIONS.length) return database;
    throw new ProblemError(
      'record_from_older_version',
      `${file} has version ${version}, this program knows ${MIGRATIONS.length}`,
    );
  } catch (error) {
    database?.close();
    throw asProblem(error, file);
  }
}

/** Asked before anything is changed: a newer record is left exactly as it is. */
function knownVersion(database: Database.Database, file: string): number {
  const version = Number(database.pragma('user_version', { simple: true }));
  if (version <= MIGRATIONS.length) return version;
  throw new ProblemError(
    'record_from_newer_version',
    `${file} has version ${version}, this program knows ${MIGRATIONS.length}`,
  );
}

function bringUpToDate(database: Database.Database, file: string, version: number): void {
  if (version === MIGRATIONS.length) {
    assertWritable(database);
    return;
  }
  if (version > 0) keepCopy(database, file, version);
  database.transaction(() => {
    for (const migration of MIGRATIONS.slice(version)) database.exec(migration);
    if (version > 0 && version < CHAINED_SINCE) linkEarlierFacts(database, Date.now());
    database.pragma(`user_version = ${MIGRATIONS.length}`);
  })();
}

/** SQLite opens a file that it may only read without complaint; the first reading would be too late. */
function assertWritable(database: Database.Database): void {
  database.exec('BEGIN IMMEDIATE; ROLLBACK;');
}

function keepCopy(database: Database.Database, file: string, version: number): void {
  database.pragma('wal_checkpoint(TRUNCATE)');
  copyFileSync(file, `${file}.before-version-${MIGRATIONS.length}-from-${version}`);
}

function asProblem(error: unknown, file: string): ProblemError {
  if (error instanceof ProblemError) return error;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const message = error instanceof Error ? error.message : String(error);
  const damaged = code === 'SQLITE_NOTADB' || code.startsWith('SQLITE_CORRUPT');
  return new ProblemError(
    damaged ? 'record_damaged' : 'data_folder_unwritable',
    `${file}: ${message}`,
    { cause: error },
  );
}
