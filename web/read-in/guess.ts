/** Guesses how a file is to be read, from its headings and its first lines. Pure; nothing is sure. */
import type { PressureUnit, TemperatureUnit } from '../../protocol/units.ts';
import type { Choice, ColumnRole, Guess } from './choice.ts';
import { type Decimal, readNumber, readTime, type TimeKind } from './read-cell.ts';
import { type Separator, SEPARATORS, splitFile, type TableLine } from './split-file.ts';

/** Lines looked at. */
const LOOKED_AT = 200;
/** A table's lines have as many cells each, but for some before and after it. */
const MOST_LINES_AGREE = 0.6;

const ROLE_WORDS: Readonly<Record<ColumnRole, RegExp>> = {
  time: /time|elapsed|date|clock|^t($|[ _[(])/iu,
  temperature: /temp|°|celsius|fahrenheit/iu,
  pressure: /press|vac|micron|torr|mbar|hpa|inhg|mmhg|(^|[^a-z])pa($|[^a-z])/iu,
  event: /^event/iu,
};

/** 'mTorr' is within two parts in ten million of a micron (0.133322368 against 0.133322387 Pa). */
const PRESSURE_WORDS: readonly (readonly [PressureUnit, RegExp])[] = [
  ['micron', /micron|m ?torr|[µμu]m ?hg/iu],
  ['mbar', /mbar|hpa/iu],
  ['Torr', /torr|mm ?hg/iu],
  ['inHg', /in ?hg/iu],
  ['Pa', /(^|[^a-z])pa($|[^a-z])/iu],
];
const MINUTE_WORDS = /(^|[^a-z])min(ute)?s?($|[^a-z])/iu;
const SECOND_WORDS = /(^|[^a-z])(s|sec|seconds?)($|[^a-z])/iu;

/**
 * @param usual what a temperature is in where the file does not say
 * @param known the separator, where somebody has chosen it
 */
export function guessChoice(text: string, usual: TemperatureUnit, known?: Separator): Guess {
  const { separator, width, lines } = guessTable(text, known);
  const [first] = lines;
  const hasHeadings = first !== undefined && !first.cells.some(isValue);
  const headings = hasHeadings ? first.cells : [];
  const rows = hasHeadings ? lines.slice(1) : lines;
  const decimal = guessDecimal(rows);
  const kinds = Array.from({ length: width }, (_, at) => kindOf(rows, at, decimal));
  const columns = guessColumns(headings, kinds, width);
  const over = (at: number | null) => (at === null ? '' : (headings[at] ?? ''));
  return {
    separator,
    decimal,
    columns,
    timeAs: guessTime(over(columns.time), columns.time === null ? null : kinds[columns.time]),
    pressureIn: PRESSURE_WORDS.find(([, words]) => words.test(over(columns.pressure)))?.[0] ?? null,
    temperatureIn: guessTemperature(over(columns.temperature)) ?? usual,
    headings,
    width,
    firstLine: rows[0]?.lineNumber ?? 1,
  };
}

function headOf(text: string, separator: Separator): TableLine[] {
  const lines: TableLine[] = [];
  for (const line of splitFile(text, separator)) {
    lines.push(line);
    if (lines.length === LOOKED_AT) break;
  }
  return lines;
}

interface Table {
  readonly separator: Separator;
  readonly width: number;
  readonly lines: readonly TableLine[];
}

/** Semicolon before tab before comma: a comma may be a decimal one, the others are nothing else. */
function guessTable(text: string, known: Separator | undefined): Table {
  const tables = (known === undefined ? SEPARATORS : [known]).map((separator) => {
    const lines = headOf(text, separator);
    const width = commonest(lines.map(({ cells }) => cells.length));
    const table = lines.filter(({ cells }) => cells.length === width);
    return { separator, width, lines: table, agree: table.length / Math.max(1, lines.length) };
  });
  const isTable = ({ width, agree }: { width: number; agree: number }) =>
    width > 1 && agree >= MOST_LINES_AGREE;
  const found = tables.find(isTable) ?? tables.find(({ width }) => width > 1) ?? tables.at(-1);
  return found ?? { separator: ',', width: 1, lines: [] };
}

function commonest(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  const [most] = [...counts].sort(([a, m], [b, n]) => n - m || b - a);
  return most?.[0] ?? 1;
}

/** Anything that is no name of a column. */
function isValue(cell: string): boolean {
  return /^[+\u2212-]?[.,]?\d/u.test(cell);
}

function guessDecimal(rows: readonly TableLine[]): Decimal {
  const cells = rows.flatMap((row) => row.cells);
  const commas = cells.filter((cell) => /^[+-]?\d+,\d+$/u.test(cell)).length;
  return commas > cells.filter((cell) => /^[+-]?\d+\.\d+$/u.test(cell)).length ? ',' : '.';
}

type CellKind = 'date' | 'clock' | 'number' | 'other';

function kindOf(rows: readonly TableLine[], at: number, decimal: Decimal): CellKind {
  const cells = rows.map((row) => row.cells[at] ?? '').filter((cell) => cell !== '');
  const most = (fits: (cell: string) => boolean) =>
    cells.length > 0 && cells.filter(fits).length > cells.length / 2;
  if (most((cell) => !Number.isNaN(readTime(cell, 'date', decimal)))) return 'date';
  if (most((cell) => !Number.isNaN(readTime(cell, 'clock', decimal)))) return 'clock';
  const isNumber = (cell: string) => !Number.isNaN(readNumber(cell, decimal) ?? Number.NaN);
  return most(isNumber) ? 'number' : 'other';
}

/** By the headings first; what they leave open by what stands in the columns, from the left. */
function guessColumns(
  headings: readonly string[],
  kinds: readonly CellKind[],
  width: number,
): Choice['columns'] {
  const all = Array.from({ length: width }, (_, at) => at);
  const named = (role: ColumnRole) => all.filter((at) => ROLE_WORDS[role].test(headings[at] ?? ''));
  const isTime = (at: number) => kinds[at] === 'date' || kinds[at] === 'clock';
  const isNumber = (at: number) => kinds[at] === 'number';
  const times = named('time');
  const time =
    times.find(isTime) ?? times.find(isNumber) ?? all.find(isTime) ?? all.find(isNumber) ?? null;
  const temperature = named('temperature').find((at) => at !== time) ?? null;
  const isFree = (at: number) => at !== time && at !== temperature;
  const pressure =
    named('pressure').find((at) => isFree(at) && isNumber(at)) ??
    all.find((at) => isFree(at) && isNumber(at)) ??
    named('pressure').find(isFree) ??
    null;
  const event = named('event').find((at) => isFree(at) && at !== pressure) ?? null;
  return { time, pressure, temperature, event };
}

function guessTime(heading: string, kind: CellKind | null | undefined): TimeKind | null {
  if (kind === 'date' || kind === 'clock') return kind;
  if (MINUTE_WORDS.test(heading)) return 'minutes';
  return SECOND_WORDS.test(heading) ? 'seconds' : null;
}

function guessTemperature(heading: string): TemperatureUnit | null {
  if (/fahrenheit|°f|[_ [(]f($|[^a-z])/iu.test(heading)) return '°F';
  return /celsius|°c|[_ [(]c($|[^a-z])/iu.test(heading) ? '°C' : null;
}
