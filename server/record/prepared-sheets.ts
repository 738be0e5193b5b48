/** Reads the job sheets that were filled in before anything was recorded. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { type PreparedSheet, preparedSheetSchema } from '../../protocol/prepared-sheet.ts';
import { OF_NO_RECORDING } from './fact-tables.ts';

const preparedRow = z.looseObject({ fields: z.string() });

export class PreparedSheets {
  readonly #latest: Database.Statement;
  readonly #lastNumber: Database.Statement;

  constructor(database: Database.Database) {
    this.#latest = database.prepare(
      `SELECT prepared, used_in AS usedIn, used_s AS usedS, at_ms AS atMs, fields FROM prepared_sheet
       WHERE id IN (SELECT MAX(id) FROM prepared_sheet GROUP BY prepared) ORDER BY prepared DESC`,
    );
    this.#lastNumber = database
      .prepare(
        `SELECT MAX((SELECT COALESCE(MAX(prepared), 0) FROM prepared_sheet),
           (SELECT COALESCE(MAX(begin_mark), 0) FROM tombstone WHERE recording_id = ${OF_NO_RECORDING}))`,
      )
      .pluck();
  }

  /** As each stands now, the latest first. */
  list(): PreparedSheet[] {
    return this.#latest.all().map((row) => {
      const { fields, ...rest } = preparedRow.parse(row);
      const kept: unknown = JSON.parse(fields);
      return preparedSheetSchema.parse({ ...rest, fields: kept });
    });
  }

  /** The highest that one has, or had before it was discarded: none is given out again. */
  lastNumber(): number {
    return z.int().parse(this.#lastNumber.get());
  }
}
