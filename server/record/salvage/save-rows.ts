/** Takes every row that can be read out of a damaged file's pages into the tables of a new record. */
import type Database from 'better-sqlite3';
import type { DamagedFile } from './damaged-file.ts';
import { type PageRow, rowsOfPage, type Value } from './page-rows.ts';
import { asRowOf, shapesOf, type TableShape } from './table-shapes.ts';

/** The chain is looked at before it counts: its links go to a table of this connection that hides the record's. */
export const LINKS_APART = `
  CREATE TEMP TABLE chain_link (
    recording_id INTEGER NOT NULL,
    number INTEGER NOT NULL,
    facts TEXT NOT NULL,
    hash BLOB NOT NULL,
    PRIMARY KEY (recording_id, number)
  ) STRICT, WITHOUT ROWID`;

export function saveRows(file: DamagedFile, database: Database.Database): void {
  const tables = shapesOf(database).map((shape) => ({ shape, insert: inserting(database, shape) }));
  for (let number = 1; number <= file.pageCount; number += 1) {
    const rows = rowsOfPage(file, number);
    if (rows === null || areOfIndex(rows)) continue;
    for (const { shape, insert } of tables) {
      const values = allOf(shape, rows);
      if (values === null) continue;
      for (const row of values) insert.run(row);
      break;
    }
  }
}

/** The record's indexes end with the row's number, which an index has once more at its end. */
function areOfIndex(rows: readonly PageRow[]): boolean {
  return rows.every(({ rowid, values }) => {
    const [one, other] = values.slice(-2);
    return rowid === null && Number.isInteger(one) && one === other;
  });
}

/** A page has the rows of one table. */
function allOf(shape: TableShape, rows: readonly PageRow[]): Value[][] | null {
  const all: Value[][] = [];
  for (const row of rows) {
    const values = asRowOf(shape, row);
    if (values === null) return null;
    all.push(values);
  }
  return all;
}

function inserting(database: Database.Database, { table, columns }: TableShape) {
  const names = columns.map(({ name }) => name).join(', ');
  const places = columns.map(() => '?').join(', ');
  return database.prepare(`INSERT OR IGNORE INTO ${table} (${names}) VALUES (${places})`);
}
