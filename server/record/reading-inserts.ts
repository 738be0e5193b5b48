/** Writes packed readings into their table, several a statement. */
import type Database from 'better-sqlite3';
import { FACT_TABLES } from './fact-tables.ts';
import { countOf, type PackedReadings, pushRow } from './packed-readings.ts';

/** Rows of a statement, the most first: a call costs more than the row that it writes. */
const ROWS_OF_A_STATEMENT = [16, 4, 1] as const;

export class ReadingInserts {
  readonly #statements: readonly { readonly rows: number; readonly insert: Database.Statement }[];

  constructor(database: Database.Database) {
    const { table, columns } = FACT_TABLES.reading;
    const row = `(${columns.map(() => '?').join(', ')})`;
    this.#statements = ROWS_OF_A_STATEMENT.map((rows) => {
      const values = Array.from({ length: rows }, () => row).join(', ');
      const sql = `INSERT INTO ${table} (${columns.join(', ')}) VALUES ${values}`;
      return { rows, insert: database.prepare(sql) };
    });
  }

  write(recordingId: number, firstIndex: number, packed: PackedReadings): void {
    const count = countOf(packed);
    let row = 0;
    for (const { rows, insert } of this.#statements) {
      for (; count - row >= rows; row += rows) {
        const values: (number | string | null)[] = [];
        for (let place = row; place < row + rows; place += 1) {
          values.push(recordingId, firstIndex + place);
          pushRow(values, packed, place);
        }
        insert.run(values);
      }
    }
  }
}
