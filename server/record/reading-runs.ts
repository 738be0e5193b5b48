/** A recording's readings in slices, packed: runs of neighbours, since of a job that was deleted the numbers are gone. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import type { FactRow } from './chain.ts';
import { FACT_TABLES } from './fact-tables.ts';
import { factRow } from './facts-of.ts';
import { type PackedReadings, packRows } from './packed-readings.ts';

export interface ReadingRun {
  readonly firstIndex: number;
  readonly packed: PackedReadings;
}

/** One slice holds the record's writer for some hundredths of a second. A setting of ours. */
const IN_A_SLICE = 2500;

export function* readingSlices(
  database: Database.Database,
  recordingId: number,
): Generator<readonly ReadingRun[]> {
  const { table, columns } = FACT_TABLES.reading;
  const statement = database
    .prepare(
      `SELECT ${columns.join(', ')} FROM ${table}
       WHERE recording_id = ? AND reading_index > ? ORDER BY reading_index LIMIT ${IN_A_SLICE}`,
    )
    .raw();
  for (let after = 0; ;) {
    const rows = statement.all(recordingId, after).map(factRow);
    const last = rows.at(-1);
    if (last === undefined) return;
    after = indexOf(last);
    yield runsOf(rows);
  }
}

function runsOf(rows: readonly FactRow[]): ReadingRun[] {
  const runs: { readonly firstIndex: number; readonly rows: FactRow[] }[] = [];
  for (const row of rows) {
    const index = indexOf(row);
    const latest = runs.at(-1);
    if (latest !== undefined && latest.firstIndex + latest.rows.length === index)
      latest.rows.push(row);
    else runs.push({ firstIndex: index, rows: [row] });
  }
  return runs.map((run) => ({ firstIndex: run.firstIndex, packed: packRows(run.rows) }));
}

function indexOf(row: FactRow): number {
  return z.int().parse(row[1]);
}
