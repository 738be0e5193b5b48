/** The table: sections of rows, each with a figure for every column, what it should be, and whether it is. */

/** Kept where `low` ≤ achieved ≤ `high`. */
export interface Bar {
  readonly low: number;
  readonly high: number;
}

export interface Cell {
  /** Null: there was no case to measure it on. Infinity: unbounded, or never. */
  readonly achieved: number | null;
  readonly cases: number;
  /** Null: for information. */
  readonly bar: Bar | null;
}

interface Row {
  readonly name: string;
  readonly unit: string;
  readonly cells: readonly Cell[];
}

export interface Section {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
}

export function atMost(high: number | undefined): Bar | null {
  return high === undefined ? null : { low: -Infinity, high };
}

export function atLeast(low: number | undefined): Bar | null {
  return low === undefined ? null : { low, high: Infinity };
}

/** A share of the cases, in per cent. */
export function share<T>(
  cases: readonly T[],
  counts: (one: T) => boolean,
  bar: Bar | null = null,
): Cell {
  const achieved = cases.length === 0 ? null : (100 * cases.filter(counts).length) / cases.length;
  return { achieved, cases: cases.length, bar };
}

/** A quantile of a value over the cases; between a number and an unbounded one lies the unbounded. */
export function quantile(values: readonly number[], at: number, bar: Bar | null = null): Cell {
  const sorted = [...values].sort((a, b) => a - b);
  const place = at * (sorted.length - 1);
  const low = sorted[Math.floor(place)];
  const high = sorted[Math.ceil(place)];
  if (low === undefined || high === undefined) return { achieved: null, cases: 0, bar };
  const achieved = Number.isFinite(high) ? low + (place - Math.floor(place)) * (high - low) : high;
  return { achieved, cases: sorted.length, bar };
}

export function isKept({ achieved, bar }: Cell): boolean {
  return bar === null || (achieved !== null && achieved >= bar.low && achieved <= bar.high);
}

const NAME_WIDTH = 68;
const CELL_WIDTH = 24;

export function printSection({ title, columns, rows }: Section): string[] {
  const head = title.padEnd(NAME_WIDTH) + columns.map((name) => name.padEnd(CELL_WIDTH)).join('');
  return [
    '',
    head.trimEnd(),
    ...rows.map(({ name, unit, cells }) => {
      const label = `  ${name}${unit === '' ? '' : `, ${unit}`}`.padEnd(NAME_WIDTH);
      return (label + cells.map((cell) => printCell(cell).padEnd(CELL_WIDTH)).join('')).trimEnd();
    }),
  ];
}

function printCell(cell: Cell): string {
  const { achieved, bar, cases } = cell;
  const figure = achieved === null ? 'no case' : digits(achieved);
  if (bar === null) return `${figure} /${cases}`;
  return `${figure} (${printBar(bar)}) ${isKept(cell) ? 'ok' : 'SHORT'} /${cases}`;
}

function printBar({ low, high }: Bar): string {
  if (low === -Infinity) return `≤${high}`;
  return high === Infinity ? `≥${low}` : `${low}–${high}`;
}

function digits(value: number): string {
  if (!Number.isFinite(value)) return 'none';
  return Math.abs(value) < 10 ? value.toFixed(2) : value.toFixed(1);
}
