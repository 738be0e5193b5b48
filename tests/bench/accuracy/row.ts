/** Rows of the table: a figure, what it should be, and whether it is. */

export interface Row {
  readonly name: string;
  /** Null: there was no case to measure it on. */
  readonly achieved: number | null;
  readonly unit: '%' | 'min' | 'micron/min' | '';
  readonly cases: number;
  /** Kept where `low` ≤ achieved ≤ `high`; null: for information. */
  readonly bar: { readonly low: number; readonly high: number } | null;
}

export function atMost(high: number): Row['bar'] {
  return { low: -Infinity, high };
}

export function atLeast(low: number): Row['bar'] {
  return { low, high: Infinity };
}

/** A share of the cases, in per cent. */
export function share<T>(
  name: string,
  cases: readonly T[],
  counts: (one: T) => boolean,
  bar: Row['bar'] = null,
): Row {
  const achieved = cases.length === 0 ? null : (100 * cases.filter(counts).length) / cases.length;
  return { name, achieved, unit: '%', cases: cases.length, bar };
}

/** A quantile of a value over the cases. */
export function quantileRow(
  name: string,
  values: readonly number[],
  at: number,
  unit: Row['unit'],
  bar: Row['bar'] = null,
): Row {
  return { name, achieved: quantileOf(values, at), unit, cases: values.length, bar };
}

export function quantileOf(values: readonly number[], at: number): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  const place = at * (sorted.length - 1);
  const low = sorted[Math.floor(place)] ?? 0;
  const high = sorted[Math.ceil(place)] ?? 0;
  // Between a number and an unbounded one there is no middle.
  return Number.isFinite(high) ? low + (place - Math.floor(place)) * (high - low) : high;
}

export function isKept({ achieved, bar }: Row): boolean {
  return bar === null || (achieved !== null && achieved >= bar.low && achieved <= bar.high);
}

export function printRow(row: Row): string {
  const { name, achieved, unit, cases, bar } = row;
  const figure = achieved === null ? '–' : Number.isFinite(achieved) ? digits(achieved) : 'none';
  return [
    name.padEnd(62),
    `${figure} ${unit}`.padStart(16),
    (bar ? printBar(bar) : '').padStart(12),
    (bar ? (achieved === null ? 'no case' : isKept(row) ? 'ok' : 'SHORT') : '').padStart(8),
    `  n=${cases}`,
  ].join('');
}

function printBar({ low, high }: NonNullable<Row['bar']>): string {
  if (low === -Infinity) return `≤ ${high}`;
  return high === Infinity ? `≥ ${low}` : `${low}–${high}`;
}

function digits(value: number): string {
  return Math.abs(value) < 10 ? value.toFixed(2) : value.toFixed(1);
}
