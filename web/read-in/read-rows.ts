/** Reads a file's rows as they were chosen to be read: each a reading, or a fault with its cure. Pure. */
import {
  type CsvRow,
  FARTHEST_C,
  HIGHEST_PA,
  isCsvEvent,
  LONGEST_S,
  ORIGIN_COLUMN,
  REHEARSED_CELL,
} from '../../protocol/readings-csv.ts';
import { pressureToPa, temperatureToC } from '../../protocol/units.ts';
import type { Guess, WholeChoice } from './choice.ts';
import { readNumber, readTime } from './read-cell.ts';
import { splitFile, type TableLine } from './split-file.ts';

/** What can be wrong with a row. */
type RowFault =
  | 'cells'
  | 'time'
  | 'time_back'
  | 'time_long'
  | 'pressure'
  | 'pressure_negative'
  | 'pressure_high'
  | 'temperature'
  | 'event';

export interface FaultyRow {
  readonly lineNumber: number;
  readonly fault: RowFault;
  /** What stands there. */
  readonly cell: string;
}

export type ReadRow =
  | {
      readonly row: CsvRow;
      /** Whether it says that it was played and not measured. */
      readonly isRehearsed: boolean;
    }
  | FaultyRow;

const HALF_DAY_S = 43_200;
const DAY_S = 86_400;

export function* readRows(
  text: string,
  choice: WholeChoice,
  { headings, firstLine, width }: Pick<Guess, 'headings' | 'firstLine' | 'width'>,
): Generator<ReadRow> {
  const axis = new Axis(choice);
  const originAt = headings.findIndex((heading) => heading.toLowerCase() === ORIGIN_COLUMN);
  for (const line of splitFile(text, choice.separator)) {
    if (line.lineNumber >= firstLine) yield readRow(line, choice, width, axis, originAt);
  }
}

/** Data time from what a file says; it remembers the row before. */
class Axis {
  readonly #choice: WholeChoice;
  #zeroS: number | null = null;
  #daysS = 0;
  #lastS = 0;

  constructor(choice: WholeChoice) {
    this.#choice = choice;
  }

  place(cell: string): number | 'time' | 'time_back' | 'time_long' {
    const { timeAs, decimal } = this.#choice;
    const saidS = readTime(cell, timeAs, decimal);
    if (Number.isNaN(saidS)) return 'time';
    // A time of day or a date is counted from the first row; seconds and minutes are counted already.
    const isCounted = timeAs === 'seconds' || timeAs === 'minutes';
    const zeroS = this.#zeroS ?? (isCounted ? 0 : saidS);
    let elapsedS = thousandths(saidS + this.#daysS - zeroS);
    if (elapsedS < 0 && isCounted) return 'time';
    const isNextDay = timeAs === 'clock' && elapsedS < this.#lastS - HALF_DAY_S;
    if (isNextDay) elapsedS += DAY_S;
    if (elapsedS < this.#lastS) return 'time_back';
    if (elapsedS > LONGEST_S) return 'time_long';
    this.#zeroS = zeroS;
    this.#daysS += isNextDay ? DAY_S : 0;
    this.#lastS = elapsedS;
    return elapsedS;
  }
}

function readRow(
  { lineNumber, cells }: TableLine,
  choice: WholeChoice,
  width: number,
  axis: Axis,
  originAt: number,
): ReadRow {
  const { columns, decimal, pressureIn, temperatureIn } = choice;
  const at = (column: number | null) => (column === null ? '' : (cells[column] ?? ''));
  const faulty = (fault: RowFault, cell: string): FaultyRow => ({ lineNumber, fault, cell });
  if (cells.length !== width) return faulty('cells', String(cells.length));

  const pressure = readNumber(at(columns.pressure), decimal);
  const pressurePa = pressure === null ? null : thousandths(pressureToPa(pressure, pressureIn));
  if (Number.isNaN(pressurePa)) return faulty('pressure', at(columns.pressure));
  if (pressurePa !== null && pressurePa < 0)
    return faulty('pressure_negative', at(columns.pressure));
  if (pressurePa !== null && pressurePa > HIGHEST_PA)
    return faulty('pressure_high', at(columns.pressure));

  const temperature = readNumber(at(columns.temperature), decimal);
  const temperatureC =
    temperature === null ? null : hundredths(temperatureToC(temperature, temperatureIn));
  if (temperatureC !== null && !(Math.abs(temperatureC) <= FARTHEST_C)) {
    return faulty('temperature', at(columns.temperature));
  }
  const event = at(columns.event).toLowerCase().replaceAll(/[ -]+/gu, '_');
  if (event !== '' && !isCsvEvent(event)) return faulty('event', at(columns.event));

  const elapsedS = axis.place(at(columns.time));
  if (typeof elapsedS === 'string') return faulty(elapsedS, at(columns.time));
  const isRehearsed = cells[originAt]?.toLowerCase() === REHEARSED_CELL;
  const row = { elapsedS, pressurePa, temperatureC, event: event === '' ? null : event };
  return { row, isRehearsed };
}

/** The record keeps no more of times and pressures. */
function thousandths(value: number): number {
  return Math.round(value * 1000) / 1000;
}

/** Nor of temperatures. */
function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
