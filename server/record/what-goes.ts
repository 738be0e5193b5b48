/** Which rows go with a job that is deleted for good. */
import type { Job } from '../../protocol/job.ts';
import { FACT_TABLES, type FactTableName, whereOf } from './fact-tables.ts';

export interface Doomed {
  readonly recordingId: number;
  readonly job: Job;
  /** The recording has no other job: nothing of it stays. */
  readonly isWhole: boolean;
}

/** A condition in SQL, and what stands for its question marks. */
export interface Which {
  readonly sql: string;
  readonly values: readonly number[];
}

/** In this order: a row goes before the one to which it belongs. */
const GOING = [
  'take_back',
  'mark_taken_back',
  'archived',
  'sign_off',
  'seen_alert',
  'call',
  'reveal',
  'taken_from',
  'reading',
  'mark',
  'sheet',
  'sensor',
  'end',
  'begin',
] as const satisfies readonly FactTableName[];

/** Of each table from which something goes. */
export function whatGoes(doomed: Doomed): ReadonlyMap<FactTableName, Which> {
  return new Map(
    GOING.flatMap((kind): [FactTableName, Which][] => {
      const which = doomed.isWhole ? wholly(kind, doomed) : ofJob(kind, doomed);
      return which === null ? [] : [[kind, which]];
    }),
  );
}

function wholly(kind: FactTableName, { recordingId }: Doomed): Which {
  return { sql: whereOf(FACT_TABLES[kind]), values: [recordingId] };
}

/** @returns null where the table says nothing of one job alone */
function ofJob(kind: (typeof GOING)[number], { recordingId, job }: Doomed): Which | null {
  const during = (column: string): Which => ({
    sql: `recording_id = ? AND ${column} >= ? AND ${column} < ?`,
    values: [recordingId, job.fromS, job.untilS ?? Number.MAX_VALUE],
  });
  const belongingTo = (column: string, table: string, key: string): Which => {
    const { sql, values } = during('elapsed_s');
    const those = `SELECT ${key} FROM ${table} WHERE ${sql}`;
    return {
      sql: `recording_id = ? AND ${column} IN (${those})`,
      values: [recordingId, ...values],
    };
  };
  switch (kind) {
    case 'reading':
    case 'mark':
    case 'sheet':
      return during('elapsed_s');
    case 'seen_alert':
      return during('until_s');
    case 'take_back':
      return belongingTo('reading_index', 'reading', 'reading_index');
    case 'mark_taken_back':
      return belongingTo('mark_id', 'mark', 'id');
    case 'archived':
    case 'sign_off': {
      // What was said of a job whose begin was taken back since is of this stretch as well.
      const { sql, values } = during('elapsed_s');
      return {
        sql: `recording_id = ? AND (begin_mark = ? OR begin_mark IN (SELECT id FROM mark WHERE ${sql}))`,
        values: [recordingId, job.beginMark, ...values],
      };
    }
    case 'call':
    case 'reveal':
    case 'taken_from':
    case 'sensor':
    case 'end':
    case 'begin':
      return null;
  }
}
