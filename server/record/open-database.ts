/** Opens the record's database file, brings it up to date, and says plainly why if it can't. */
import { copyFileSync, mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { ProblemError } from '../../protocol/problems.ts';
import { linkEarlierFacts } from './link-earlier-facts.ts';
import { MIGRATIONS } from './schema.ts';

export const RECORD_FILE = 'record.sqlite';

/** The version from which on facts are chained as they are written. */
const CHAINED_SINCE = 6;

/** For whoever else writes into the file, which nobody should: facts wait meanwhile, and that has to be said. */
const LONGEST_WAIT_MS = 500;
const LOOKED_THROUGH_BYTES = 64 * 1024 * 1024;
const columnRow = z.object({ name: z.string(), pk: z.int() });

/**
 * Opens for writing; creates folder and file where they are missing.
 * @param suspicious whether the whole of it is to be looked through, however large it is
 */
export function openForWriting(dataFolder: string, suspicious = false): Database.Database {
  const file = join(dataFolder, RECORD_FILE);
  let database: Database.Database | null = null;
  try {
    mkdirSync(dataFolder, { recursive: true });
    database = new Database(file, { timeout: LONGEST_WAIT_MS });
    const version = knownVersion(database, file);
    database.pragma('journal_mode = WAL');
    // A reading counts as recorded only once it would survive a power cut.
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    // What is deleted for good is overwritten, not only forgotten.
    database.pragma('secure_delete = ON');
    if (version > 0) assertSound(database, file, suspicious);
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

/**
 * Damage is better met now than in the middle of a visit. A record of up to 64 MB (a year of ordinary visits) is
 * looked through whole, in some tenths of a second. Of a larger one that would take minutes: where new facts will
 * be written is looked at, and damage elsewhere is met when it is read.
 */
function assertSound(database: Database.Database, file: string, suspicious: boolean): void {
  const found =
    suspicious || statSync(file).size <= LOOKED_THROUGH_BYTES
      ? String(database.pragma('quick_check(1)', { simple: true }))
      : lookAtEnds(database);
  if (found !== 'ok') throw new ProblemError('record_damaged', `${file}: ${found}`);
}

function lookAtEnds(database: Database.Database): string {
  const tables = database
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck();
  for (const name of z.array(z.string()).parse(tables.all())) {
    const keys = z.array(columnRow).parse(database.pragma(`table_info(${name})`));
    const order = keys
      .filter(({ pk }) => pk > 0)
      .map((key) => `${key.name} DESC`)
      .join(', ');
    database.prepare(`SELECT * FROM ${name} ORDER BY ${order} LIMIT 1`).get();
  }
  return 'ok';
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

/** Whether the database found its file to be damaged. */
export function isDamage(error: unknown): error is Error {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return code === 'SQLITE_NOTADB' || code.startsWith('SQLITE_CORRUPT');
}

/** What went wrong with the database, for whoever can do something about it. */
export function asProblem(error: unknown, file: string): ProblemError {
  if (error instanceof ProblemError) return error;
  const message = error instanceof Error ? error.message : String(error);
  const damaged = isDamage(error);
  return new ProblemError(
    damaged ? 'record_damaged' : 'data_folder_unwritable',
    `${file}: ${message}`,
    { cause: error },
  );
}
