/** What comes of a file as it is chosen to be read: gathered row by row. Pure. */
import {
  asRehearsedRows,
  type CsvRow,
  formatReadingsCsvRows,
  READINGS_CSV_HEADER,
  REHEARSED_CSV_HEADER,
} from '../../protocol/readings-csv.ts';
import type { FaultyRow, ReadRow } from './read-rows.ts';

/** Faulty rows that are told one by one; the others are counted. */
const MOST_TOLD = 8;
/** As text a row takes a tenth of the room. */
const ROWS_IN_A_PART = 5000;

export class Found {
  readonly faults: FaultyRow[] = [];
  readonly #parts: string[] = [];
  #rows: CsvRow[] = [];
  readings = 0;
  /** Readings without a pressure: over range, or nothing measured. */
  unmeasured = 0;
  events = 0;
  faulty = 0;
  lowestPa: number | null = null;
  #firstS: number | null = null;
  #lastS = 0;
  #isRehearsed = false;

  take(read: ReadRow): void {
    if ('fault' in read) {
      this.faulty += 1;
      if (this.faults.length < MOST_TOLD) this.faults.push(read);
      return;
    }
    const { row, isRehearsed } = read;
    this.#isRehearsed ||= isRehearsed;
    this.readings += 1;
    if (row.pressurePa === null) this.unmeasured += 1;
    else this.lowestPa = Math.min(this.lowestPa ?? row.pressurePa, row.pressurePa);
    if (row.event !== null) this.events += 1;
    this.#firstS ??= row.elapsedS;
    this.#lastS = row.elapsedS;
    this.#rows.push(row);
    if (this.#rows.length === ROWS_IN_A_PART) this.#write();
  }

  /** From the first reading to the last, s. */
  get lengthS(): number {
    return this.#lastS - (this.#firstS ?? 0);
  }

  /** The readings in the one format that the bridge takes. */
  csv(): string {
    this.#write();
    if (!this.#isRehearsed) return [READINGS_CSV_HEADER, ...this.#parts].join('');
    return [REHEARSED_CSV_HEADER, ...this.#parts.map(asRehearsedRows)].join('');
  }

  #write(): void {
    this.#parts.push(formatReadingsCsvRows(this.#rows));
    this.#rows = [];
  }
}
