/**
 * A recording that is being taken over in slices: while it lasts its readings stand in the record without their
 * recording, so that nobody sees them. Which one it is stands in a file beside the record, and on the disk before its
 * first reading is. Whoever is killed amid it leaves readings that the next start removes: of a recording comes all
 * or nothing.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { FACT_TABLES } from './fact-tables.ts';

const FILE = 'record.half-taken';
const READING = FACT_TABLES.reading.table;
const REMOVED_AT_A_TIME = 5000;

const ruleRow = z.object({ name: z.string(), sql: z.string() });

export class HalfTaken {
  readonly #file: string;
  readonly #dataFolder: string;

  constructor(dataFolder: string) {
    this.#dataFolder = dataFolder;
    this.#file = join(dataFolder, FILE);
  }

  /** The recording of which there may be some readings; null: there is none. */
  get recordingId(): number | null {
    if (!existsSync(this.#file)) return null;
    // Torn, where the power went: then nothing of it had been written yet.
    const found = z
      .int()
      .min(1)
      .safeParse(Number(readFileSync(this.#file, 'utf8')));
    return found.success ? found.data : null;
  }

  /** Before the first reading is written. */
  begin(recordingId: number): void {
    const file = openSync(this.#file, 'w');
    try {
      writeSync(file, `${recordingId}`);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    this.#syncFolder();
  }

  /** All of it is there, or nothing. */
  end(): void {
    rmSync(this.#file, { force: true });
  }

  /**
   * Removes what is there of it, where it is not whole; yields after each part.
   * @returns the recording of which something was removed, or null
   */
  *remove(database: Database.Database): Generator<void, number | null> {
    const { recordingId } = this;
    let removed = 0;
    if (recordingId !== null) {
      for (const count of removeOrphans(database, recordingId)) {
        removed += count;
        yield;
      }
    }
    this.end();
    return removed > 0 ? recordingId : null;
  }

  #syncFolder(): void {
    // Windows opens no folder as a file.
    if (process.platform === 'win32') return;
    const folder = openSync(this.#dataFolder, 'r');
    try {
      fsyncSync(folder);
    } finally {
      closeSync(folder);
    }
  }
}

/** Of a copy that was made amid it: nobody else has that file. */
export function removeAllOrphans(database: Database.Database): void {
  const ids = database
    .prepare(
      `WITH RECURSIVE one(id) AS (
         SELECT MIN(recording_id) FROM ${READING}
         UNION ALL SELECT (SELECT MIN(recording_id) FROM ${READING} WHERE recording_id > id) FROM one
         WHERE id IS NOT NULL
       ) SELECT id FROM one WHERE id IS NOT NULL AND id NOT IN (SELECT id FROM recording)`,
    )
    .pluck();
  for (const id of z.array(z.int()).parse(ids.all())) {
    const steps = removeOrphans(database, id);
    while (steps.next().done !== true);
  }
}

/** Readings without a recording; of one that is whole none goes. */
function* removeOrphans(database: Database.Database, recordingId: number): Generator<number> {
  const isWhole = database.prepare('SELECT 1 FROM recording WHERE id = ?').get(recordingId);
  if (isWhole !== undefined) return;
  const rules = z.array(ruleRow).parse(
    database
      .prepare(
        `SELECT name, sql FROM sqlite_schema
           WHERE type = 'trigger' AND tbl_name = ? AND name LIKE '%_goes_only_by_tombstone'`,
      )
      .all(READING),
  );
  const remove = database.transaction(() => {
    // They were never a fact of this record: no tombstone stands for them.
    for (const { name } of rules) database.exec(`DROP TRIGGER ${name}`);
    const { changes } = database
      .prepare(
        `DELETE FROM ${READING} WHERE recording_id = ? AND reading_index IN (
           SELECT reading_index FROM ${READING} WHERE recording_id = ? LIMIT ${REMOVED_AT_A_TIME}
         )`,
      )
      .run(recordingId, recordingId);
    for (const { sql } of rules) database.exec(sql);
    return changes;
  });
  for (let changes = remove(); changes > 0; changes = remove()) yield changes;
}
