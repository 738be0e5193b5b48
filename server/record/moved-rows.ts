/** Rows of a recording from another record, with the numbers that they have in this one. */
import { z } from 'zod';
import { FIRST_JOB } from '../../protocol/job.ts';
import type { FactRow } from './chain.ts';
import { FACT_TABLES, type FactTableName } from './fact-tables.ts';

/** In the place of a mark's number: none has it. */
const GONE = -1;

export class MovedRows {
  readonly #recordingId: number;
  /** Numbers of marks there, and here. */
  readonly #marks = new Map<number, number>();
  #latestMarkThere = 0;

  constructor(recordingId: number) {
    this.#recordingId = recordingId;
  }

  /** Of one's own number the database knows: it stands open. */
  row(kind: FactTableName, row: FactRow): FactRow {
    const names: readonly string[] = FACT_TABLES[kind].columns;
    if (kind === 'mark') this.#latestMarkThere = z.int().parse(row[0]);
    return row.map((value, place) => {
      switch (names[place]) {
        case 'id':
          return null;
        case 'recording_id':
          return this.#recordingId;
        case 'mark_id':
        case 'begin_mark':
          return this.#markHere(kind, Number(value));
        case 'links':
          // Those were of the other chain.
          return '';
        case undefined:
        default:
          return value;
      }
    });
  }

  /** @returns null, which no table takes, where there is no such mark */
  #markHere(kind: FactTableName, markThere: number): number | null {
    if (markThere === FIRST_JOB) return FIRST_JOB;
    // A tombstone may stand for a mark that is gone with its job.
    return this.#marks.get(markThere) ?? (kind === 'tombstone' ? GONE : null);
  }

  /** @param given the number that the database gave it */
  withId(
    kind: FactTableName,
    row: FactRow,
    given: number,
  ): { readonly key: number | null; readonly numbered: FactRow } {
    const { columns, key } = FACT_TABLES[kind];
    const names: readonly string[] = columns;
    if (kind === 'mark') this.#marks.set(this.#latestMarkThere, given);
    const numbered = row.map((value, place) =>
      names[place] === 'id' && value === null ? given : value,
    );
    return { key: key === null ? null : z.int().parse(numbered[names.indexOf(key)]), numbered };
  }
}
