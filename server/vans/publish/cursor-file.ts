/**
 * How much of each recording the broker has, in a file of its own beside the record. Whoever loses it loses
 * nothing: all is sent again, and a reader that keeps the sequence takes none of it twice.
 */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import type { RecordingKey } from '../../../protocol/van-topics.ts';

const CURSOR_FILE = 'published.sqlite';

const cursorRow = z.object({
  recordingId: z.int(),
  startedAtMs: z.int(),
  lastIndex: z.int(),
  factsVersion: z.int(),
  factsHash: z.string(),
  chainLength: z.int(),
  deleted: z.int().transform((value) => value === 1),
});
/** Of a recording. */
export type Cursor = z.infer<typeof cursorRow>;

const COLUMNS = `recording_id AS recordingId, started_at_ms AS startedAtMs, last_index AS lastIndex,
  facts_version AS factsVersion, facts_hash AS factsHash, chain_length AS chainLength, deleted`;

export class CursorFile {
  readonly #database: Database.Database;
  readonly #all: Database.Statement;
  readonly #one: Database.Statement;
  readonly #begin: Database.Statement;
  readonly #save: Database.Statement;

  /** @param destination broker and van: another one has nothing yet */
  constructor(dataFolder: string, destination: string) {
    this.#database = usable(join(dataFolder, CURSOR_FILE), destination);
    this.#all = this.#database.prepare(
      `SELECT ${COLUMNS} FROM cursor ORDER BY recording_id, started_at_ms`,
    );
    this.#one = this.#database.prepare(
      `SELECT ${COLUMNS} FROM cursor WHERE recording_id = ? AND started_at_ms = ?`,
    );
    this.#begin = this.#database.prepare(
      `INSERT OR IGNORE INTO cursor VALUES (?, ?, 0, 0, '', 0, 0)`,
    );
    this.#save = this.#database.prepare(
      `UPDATE cursor SET last_index = @lastIndex, facts_version = @factsVersion, facts_hash = @factsHash,
         chain_length = @chainLength, deleted = @deleted
       WHERE recording_id = @recordingId AND started_at_ms = @startedAtMs`,
    );
  }

  all(): Cursor[] {
    return z.array(cursorRow).parse(this.#all.all());
  }

  /** @returns null where nothing was ever sent of it */
  find({ recordingId, startedAtMs }: RecordingKey): Cursor | null {
    const row = this.#one.get(recordingId, startedAtMs);
    return row === undefined ? null : cursorRow.parse(row);
  }

  /** Where it stands; a recording of which nothing was sent begins at its beginning. */
  of(key: RecordingKey): Cursor {
    const known = this.find(key);
    if (known !== null) return known;
    this.#begin.run(key.recordingId, key.startedAtMs);
    return { ...key, lastIndex: 0, factsVersion: 0, factsHash: '', chainLength: 0, deleted: false };
  }

  change(key: RecordingKey, change: Partial<Omit<Cursor, keyof RecordingKey>>): void {
    const changed = { ...this.of(key), ...change };
    this.#save.run({ ...changed, deleted: changed.deleted ? 1 : 0 });
  }

  close(): void {
    this.#database.close();
  }
}

function usable(file: string, destination: string): Database.Database {
  try {
    return opened(file, destination);
  } catch {
    for (const end of ['', '-wal', '-shm', '-journal']) rmSync(`${file}${end}`, { force: true });
    return opened(file, destination);
  }
}

function opened(file: string, destination: string): Database.Database {
  const database = new Database(file);
  try {
    return prepared(database, destination);
  } catch (error) {
    database.close();
    throw error;
  }
}

function prepared(database: Database.Database, destination: string): Database.Database {
  database.pragma('journal_mode = WAL');
  // What a power cut takes is sent again.
  database.pragma('synchronous = NORMAL');
  database.exec(`
    CREATE TABLE IF NOT EXISTS sent_to (destination TEXT NOT NULL) STRICT;
    CREATE TABLE IF NOT EXISTS cursor (
      recording_id INTEGER NOT NULL,
      started_at_ms INTEGER NOT NULL,
      last_index INTEGER NOT NULL,
      facts_version INTEGER NOT NULL,
      facts_hash TEXT NOT NULL,
      chain_length INTEGER NOT NULL,
      deleted INTEGER NOT NULL,
      PRIMARY KEY (recording_id, started_at_ms)
    ) STRICT, WITHOUT ROWID;`);
  if (database.prepare('SELECT destination FROM sent_to').pluck().get() !== destination) {
    database.exec('DELETE FROM cursor; DELETE FROM sent_to');
    database.prepare('INSERT INTO sent_to VALUES (?)').run(destination);
  }
  return database;
}
