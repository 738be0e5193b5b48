/** The facts of a recording as rows of their tables, a few thousand in memory at a time. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import type { FactRow } from './chain.ts';
import { FACT_TABLES, type FactTableName, whereOf } from './fact-tables.ts';

const AT_A_TIME = 5000;

/** By hand: of a schema the rows of a day would take seconds. */
function isFactRow(row: unknown): row is FactRow {
  return (
    Array.isArray(row) &&
    row.every((value) => value === null || typeof value === 'number' || typeof value === 'string')
  );
}

export function factRow(row: unknown): FactRow {
  if (isFactRow(row)) return row;
  throw new TypeError('a row of facts has text, numbers and null alone');
}

/** In order; a day of readings is millions. The key is null where a recording has one of it at most. */
export function* factsOf(
  database: Database.Database,
  kind: FactTableName,
  recordingId: number,
): Generator<{ readonly key: number | null; readonly row: FactRow }> {
  const table = FACT_TABLES[kind];
  const { columns, key } = table;
  const from = `SELECT ${columns.join(', ')} FROM ${table.table} WHERE ${whereOf(table)}`;
  if (key === null) {
    for (const found of database.prepare(from).raw().all(recordingId)) {
      yield { key: null, row: factRow(found) };
    }
    return;
  }
  const next = database.prepare(`${from} AND ${key} > ? ORDER BY ${key} LIMIT ${AT_A_TIME}`).raw();
  const names: readonly string[] = columns;
  const place = names.indexOf(key);
  for (let after = 0; ;) {
    const rows = next.all(recordingId, after).map(factRow);
    for (const row of rows) {
      after = z.int().parse(row[place]);
      yield { key: after, row };
    }
    if (rows.length === 0) return;
  }
}
