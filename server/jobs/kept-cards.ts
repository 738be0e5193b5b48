/**
 * The cards as they were drawn last time, in a file of their own beside the record. Nothing in it is a fact: where
 * it is missing, damaged or of another version it is begun anew and filled from the record.
 */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { type JobCard, jobCardSchema } from '../../protocol/job-card.ts';

export const CARDS_FILE = 'job-list.sqlite';

/** Raised when a card changes its meaning, or what is concluded does while the program keeps its version. */
const CARDS_VERSION = 1;

const row = z.object({ recording_id: z.int(), facts: z.int(), cards: z.string() });

/** The cards of a recording, and how many links its chain had when they were drawn. */
export interface KeptCards {
  readonly recordingId: number;
  readonly facts: number;
  readonly cards: readonly JobCard[];
}

export class CardFile {
  readonly #database: Database.Database;
  readonly #insert: Database.Statement;
  readonly #remove: Database.Statement;
  readonly #count: Database.Statement;

  /** @param softwareVersion cards that another version drew are forgotten */
  constructor(dataFolder: string, softwareVersion: string) {
    const file = join(dataFolder, CARDS_FILE);
    this.#database = usable(file, `${CARDS_VERSION} ${softwareVersion}`);
    this.#insert = this.#database.prepare('INSERT OR REPLACE INTO card VALUES (?, ?, ?)');
    this.#count = this.#database
      .prepare('SELECT json_array_length(cards) FROM card WHERE recording_id = ?')
      .pluck();
    this.#remove = this.#database.prepare('DELETE FROM card WHERE recording_id = ?');
  }

  all(): KeptCards[] {
    return this.#database
      .prepare('SELECT recording_id, facts, cards FROM card')
      .all()
      .flatMap((found) => {
        const { recording_id, facts, cards } = row.parse(found);
        const parsed = z.array(jobCardSchema).safeParse(JSON.parse(cards));
        return parsed.success ? [{ recordingId: recording_id, facts, cards: parsed.data }] : [];
      });
  }

  keep({ recordingId, facts, cards }: KeptCards): void {
    const before = z.int().optional().parse(this.#count.get(recordingId)) ?? 0;
    this.#insert.run(recordingId, facts, JSON.stringify(cards));
    if (cards.length < before) this.#emptyLog();
  }

  forget(recordingId: number): void {
    if (this.#remove.run(recordingId).changes > 0) this.#emptyLog();
  }

  /** It still has what was on a card that is gone for good, whole and readable. */
  #emptyLog(): void {
    this.#database.pragma('wal_checkpoint(TRUNCATE)');
  }

  close(): void {
    this.#database.close();
  }
}

function usable(file: string, version: string): Database.Database {
  try {
    return opened(file, version);
  } catch {
    for (const end of ['', '-wal', '-shm', '-journal']) rmSync(`${file}${end}`, { force: true });
    return opened(file, version);
  }
}

function opened(file: string, version: string): Database.Database {
  const database = new Database(file);
  try {
    database.pragma('journal_mode = WAL');
    // What a power cut takes is drawn again.
    database.pragma('synchronous = OFF');
    // What is deleted for good is overwritten here too.
    database.pragma('secure_delete = ON');
    database.exec('CREATE TABLE IF NOT EXISTS drawn_by (version TEXT NOT NULL) STRICT');
    database.exec(
      'CREATE TABLE IF NOT EXISTS card (recording_id INTEGER PRIMARY KEY, facts INTEGER NOT NULL, cards TEXT NOT NULL) STRICT',
    );
    if (database.prepare('SELECT version FROM drawn_by').pluck().get() !== version) {
      database.exec('DELETE FROM card; DELETE FROM drawn_by');
      database.prepare('INSERT INTO drawn_by VALUES (?)').run(version);
    }
    return database;
  } catch (error) {
    database.close();
    throw error;
  }
}
