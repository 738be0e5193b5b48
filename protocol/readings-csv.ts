/**
 * Readings as CSV: the format that the `analyse` command reads and every export writes.
 *
 * Header `elapsed_s,pressure_pa,event`, further columns allowed (`temperature_c` is used, others are
 * ignored). An empty pressure is an over-range or missing reading. `rehearsal` in a column `origin` says that
 * the readings were played and not measured: no conclusion changes by that, but they are no proof of a job.
 */

/** Events that a file can carry; anything else in that column is an error. */
const CSV_EVENTS = ['pump_on', 'ballast_closed', 'isolated'] as const;
export type CsvEvent = (typeof CSV_EVENTS)[number];

export interface CsvRow {
  readonly elapsedS: number;
  readonly pressurePa: number | null;
  readonly event: CsvEvent | null;
  readonly temperatureC: number | null;
}

/**
 * What a reading can carry, in the sensor profile's fields: milliseconds and millipascals in 32 bits,
 * the largest pressure of all saying 'not known', and hundredths of a degree in 16 bits with a sign.
 */
export const LONGEST_S = (2 ** 32 - 1) / 1000;
export const HIGHEST_PA = (2 ** 32 - 2) / 1000;
export const FARTHEST_C = (2 ** 15 - 1) / 100;

/** What is wrong with a file, in which line, and what to do. */
export class CsvError extends Error {
  override readonly name = 'CsvError';
}

const REQUIRED = ['elapsed_s', 'pressure_pa', 'event'] as const;

/** A row and the line of the file in which it stands, counted from 1. */
export interface CsvLine {
  readonly lineNumber: number;
  readonly row: CsvRow;
  /** Whether it says that it was played and not measured. */
  readonly isRehearsed: boolean;
}

/**
 * Reads a whole file.
 * @throws CsvError naming the line and the cure, for anything that is not of the format.
 */
export function parseReadingsCsv(text: string): CsvRow[] {
  return Array.from(readingsCsvLines(text), ({ row }) => row);
}

/**
 * Reads a file row by row, so that a long one need not be in memory twice.
 * @throws CsvError on the way, as `parseReadingsCsv`
 */
export function* readingsCsvLines(text: string): Generator<CsvLine> {
  let columns: Columns | null = null;
  let lineNumber = 0;
  let previousS: number | null = null;
  for (const line of linesOf(text)) {
    lineNumber += 1;
    if (columns === null) {
      columns = readHeader(line);
      continue;
    }
    if (line.trim() === '') continue;
    const cells = splitLine(line);
    const row = readRow(cells, lineNumber, columns);
    if (previousS !== null && row.elapsedS < previousS) {
      throw new CsvError(
        `line ${lineNumber}: elapsed_s goes back from ${previousS} to ${row.elapsedS}; ` +
          'sort the rows by time',
      );
    }
    previousS = row.elapsedS;
    yield { lineNumber, row, isRehearsed: cells[columns.origin] === REHEARSED_CELL };
  }
  if (previousS === null) throw new CsvError('line 2: there are no readings; add at least one row');
}

function* linesOf(text: string): Generator<string> {
  let from = 0;
  for (const { index, 0: end } of text.matchAll(/\r\n|\n|\r/gu)) {
    yield text.slice(from, index);
    from = index + end.length;
  }
  yield text.slice(from);
}

interface Columns {
  readonly count: number;
  readonly elapsed: number;
  readonly pressure: number;
  readonly event: number;
  readonly temperature: number;
  readonly origin: number;
}

function readHeader(line: string): Columns {
  const names = splitLine(line);
  const missing = REQUIRED.filter((name) => !names.includes(name));
  if (missing.length > 0) {
    throw new CsvError(
      `line 1: the header lacks ${missing.join(' and ')}; it must name ${REQUIRED.join(',')}`,
    );
  }
  return {
    count: names.length,
    elapsed: names.indexOf('elapsed_s'),
    pressure: names.indexOf('pressure_pa'),
    event: names.indexOf('event'),
    temperature: names.indexOf('temperature_c'),
    origin: names.indexOf(ORIGIN_COLUMN),
  };
}

function readRow(cells: readonly string[], lineNumber: number, columns: Columns): CsvRow {
  if (cells.length !== columns.count) {
    throw new CsvError(
      `line ${lineNumber}: ${cells.length} cells under ${columns.count} headings; ` +
        'write numbers with a point and leave unknown cells empty',
    );
  }
  const elapsedS = readNumber(cells[columns.elapsed] ?? '', 'elapsed_s', lineNumber);
  if (elapsedS === null || elapsedS < 0) {
    throw new CsvError(`line ${lineNumber}: elapsed_s must be seconds from 0 on`);
  }
  const pressurePa = readNumber(cells[columns.pressure] ?? '', 'pressure_pa', lineNumber);
  if (pressurePa !== null && pressurePa < 0) {
    throw new CsvError(
      `line ${lineNumber}: pressure_pa is ${pressurePa}, but absolute pressure can't be negative; ` +
        'convert gauge pressure to absolute',
    );
  }
  const event = cells[columns.event] ?? '';
  if (event !== '' && !isCsvEvent(event)) {
    throw new CsvError(
      `line ${lineNumber}: the event "${event}" is unknown; use ${CSV_EVENTS.join(', ')} or nothing`,
    );
  }
  return {
    elapsedS,
    pressurePa,
    event: event === '' ? null : event,
    temperatureC: readNumber(cells[columns.temperature] ?? '', 'temperature_c', lineNumber),
  };
}

/**
 * The format holds numbers and fixed words only, so a comma is always a separator. A byte order mark
 * before the first cell goes with the white space.
 */
function splitLine(line: string): string[] {
  return line.split(',').map((cell) => cell.trim().replace(/^"(.*)"$/u, '$1'));
}

function readNumber(cell: string, column: string, lineNumber: number): number | null {
  if (cell === '') return null;
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/iu.test(cell)) {
    throw new CsvError(`line ${lineNumber}: ${column} is "${cell}", which is not a number`);
  }
  const value = Number(cell);
  if (!Number.isFinite(value)) {
    throw new CsvError(`line ${lineNumber}: ${column} is "${cell}", which is too large`);
  }
  return value;
}

/** Whether a file's column `event` has that word. */
export function isCsvEvent(text: string): text is CsvEvent {
  return CSV_EVENTS.some((event) => event === text);
}

/** The heading row, for writers that send a file in parts. */
export const READINGS_CSV_HEADER = 'elapsed_s,pressure_pa,event,temperature_c\n';

/** Rows without the header; numbers in full, so that reading them back gives the same ones. */
export function formatReadingsCsvRows(rows: readonly CsvRow[]): string {
  return rows
    .map(
      (row) =>
        `${row.elapsedS},${row.pressurePa ?? ''},${row.event ?? ''},${row.temperatureC ?? ''}\n`,
    )
    .join('');
}

export const ORIGIN_COLUMN = 'origin';
export const REHEARSED_CELL = 'rehearsal';

/** The same of what was played and not measured, so that it can't pass for a job wherever it is read in. */
export const REHEARSED_CSV_HEADER = READINGS_CSV_HEADER.replace('\n', `,${ORIGIN_COLUMN}\n`);

/** @param rows as `formatReadingsCsvRows` writes them */
export function asRehearsedRows(rows: string): string {
  return rows.replaceAll('\n', `,${REHEARSED_CELL}\n`);
}
