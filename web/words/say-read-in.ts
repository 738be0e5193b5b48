/** Words for reading a file in: what was found in it, and what is wrong with a row. */
import type { PressureUnit } from '../../protocol/units.ts';
import { sayDuration } from './say-duration.ts';
import { sayPressure } from './say-pressure.ts';

export const READ_IN_WORDS = {
  title: 'Read in a file',
  help: 'How the columns are read is a guess: look at it, and change what is wrong. Nothing is kept before you read it in.',
  separator: 'Cells are divided by',
  decimal: 'Decimals after a',
  unit: 'in',
  as: 'as',
  none: 'none',
  choose: 'choose…',
  lineNumber: 'line',
  reading: 'Reading…',
  readingIn: 'Reading it in…',
  leaveOut: 'Leave out the rows that could not be read',
  nothing: 'No reading was found. Choose the columns above, and how time and pressure are written.',
  unsaid: 'Choose how time and pressure are written: the file does not say.',
  back: 'Another file',
} as const;

export const COLUMN_NAMES = {
  time: 'Time',
  pressure: 'Pressure',
  temperature: 'Temperature',
  event: 'Event',
} as const;

export const SEPARATOR_NAMES = { ';': 'semicolon', '\t': 'tab', ',': 'comma' } as const;
export const DECIMAL_NAMES = { '.': 'point', ',': 'comma' } as const;
export const TIME_KIND_NAMES = {
  seconds: 'seconds',
  minutes: 'minutes',
  clock: 'time of day',
  date: 'date and time',
} as const;

/** A column by its heading, or by its place where it has none. */
export function sayColumn(heading: string | undefined, at: number): string {
  return heading === undefined || heading === '' ? `column ${at + 1}` : heading;
}

/** As `Found` has it. */
interface FoundFacts {
  readonly readings: number;
  readonly unmeasured: number;
  readonly events: number;
  readonly faulty: number;
  readonly lengthS: number;
  readonly lowestPa: number | null;
}

/** '1284 readings over 52 min, 66.0 Pa lowest; 12 of them without a pressure; 3 rows could not be read.' */
export function sayFound(found: FoundFacts, unit: PressureUnit): string {
  const { readings, unmeasured, events, faulty, lengthS, lowestPa } = found;
  if (readings === 0) return READ_IN_WORDS.nothing;
  const lowest = lowestPa === null ? '' : `, ${sayPressure(lowestPa, unit)} lowest`;
  return `${[
    `${counted(readings, 'reading')} over ${sayDuration(lengthS)}${lowest}`,
    ...(unmeasured > 0 ? [`${unmeasured} of them without a pressure`] : []),
    ...(events > 0 ? [counted(events, 'event')] : []),
    ...(faulty > 0 ? [`${counted(faulty, 'row')} could not be read`] : []),
  ].join('; ')}.`;
}

export function sayReadIn(readings: number): string {
  return `Read in ${counted(readings, 'reading')}`;
}

function counted(count: number, one: string): string {
  const digits = String(count).replace(/\B(?=(\d{3})+$)/gu, count < 10_000 ? '' : '\u00a0');
  return `${digits} ${one}${count === 1 ? '' : 's'}`;
}

const FAULTS = {
  cells: (cell: string) =>
    `it has ${cell} cells, the table has more or fewer; see that it is whole`,
  time: (cell: string) =>
    `“${cell}” is no time of the chosen kind; choose another, or put it right`,
  time_back: (cell: string) => `“${cell}” is earlier than the row before; sort the rows by time`,
  time_long: (cell: string) => `“${cell}” is more than 49 days from the start; is it in that unit?`,
  pressure: (cell: string) => `“${cell}” is no pressure; leave it empty where nothing was measured`,
  pressure_negative: (cell: string) =>
    `“${cell}” is below zero, as absolute pressure can’t be; make gauge pressure absolute`,
  pressure_high: (cell: string) => `“${cell}” is more than any sensor shows; is it in that unit?`,
  temperature: (cell: string) => `“${cell}” is no temperature; leave it empty where there is none`,
  event: (cell: string) =>
    `“${cell}” is no event that is known: pump on, ballast closed, isolated; or choose no column`,
} as const;
const LONGEST_CELL = 30;

export function sayFaultyRow(row: {
  readonly lineNumber: number;
  readonly fault: keyof typeof FAULTS;
  readonly cell: string;
}): string {
  const cell = row.cell.length > LONGEST_CELL ? `${row.cell.slice(0, LONGEST_CELL)}…` : row.cell;
  return `line ${row.lineNumber}: ${FAULTS[row.fault](cell)}`;
}

export function sayFurtherFaults(count: number): string {
  return count === 1 ? 'and one more' : `and ${count} more`;
}

/** Kept with the recording: what was made of the file. */
export function sayHowRead(how: {
  readonly time: string;
  readonly timeAs: keyof typeof TIME_KIND_NAMES;
  readonly pressure: string;
  readonly pressureIn: PressureUnit;
  readonly faulty: number;
  readonly lines: readonly number[];
}): string {
  const kind = TIME_KIND_NAMES[how.timeAs];
  const read = `Read in with time from “${short(how.time)}” (${kind}) and pressure from “${short(how.pressure)}” (${how.pressureIn}).`;
  if (how.faulty === 0) return read;
  const more = how.faulty > how.lines.length ? ' and others' : '';
  const were =
    how.faulty === 1 ? 'row could not be read and was' : 'rows could not be read and were';
  return `${read} ${how.faulty} ${were} left out: line ${how.lines.join(', ')}${more}.`;
}

function short(heading: string): string {
  return heading.slice(0, LONGEST_CELL);
}
