/** What stands in one cell: a number, a time, or nothing. Pure. */

export const DECIMALS = ['.', ','] as const;
export type Decimal = (typeof DECIMALS)[number];

export const TIME_KINDS = ['seconds', 'minutes', 'clock', 'date'] as const;
/** How a file says when: seconds or minutes since its start, a time of day, or an ISO 8601 date. */
export type TimeKind = (typeof TIME_KINDS)[number];

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/iu;
/** What loggers write where there is no number: over range, or nothing measured. */
const NO_NUMBER = /^(-+|nan|null|n\/?a|ol|o\.l\.?|over|over ?range|overrange|atm|>.*)?$/iu;
const CLOCK = /^(\d{1,3}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?$/u;
const DATE =
  /^(\d{4})[-/](\d{2})[-/](\d{2})[T ](\d{2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?(Z|[+-]\d{2}:?\d{2})?$/u;

/** Null where the cell says that there is none, NaN for anything else. */
export function readNumber(cell: string, decimal: Decimal): number | null {
  if (NO_NUMBER.test(cell)) return null;
  // Groups of thousands are set apart by spaces at most: a comma or a point could be either.
  const plain = cell.replace(/(\d)[ \u00a0\u202f](?=\d{3})/gu, '$1').replace('\u2212', '-');
  const point = decimal === ',' ? plain.replace(',', '.') : plain;
  if (decimal === ',' && plain.includes('.')) return Number.NaN;
  const value = NUMBER.test(point) ? Number(point) : Number.NaN;
  return Number.isFinite(value) ? value : Number.NaN;
}

/** Seconds on an axis that each kind has for itself; NaN for what is no such time. */
export function readTime(cell: string, kind: TimeKind, decimal: Decimal): number {
  switch (kind) {
    case 'seconds':
      return readNumber(cell, decimal) ?? Number.NaN;
    case 'minutes':
      return (readNumber(cell, decimal) ?? Number.NaN) * 60;
    case 'clock':
      return readClock(cell);
    case 'date':
      return readDate(cell);
  }
}

/** Hours may go on beyond 24, as where a file counts from its start. */
function readClock(cell: string): number {
  const [, hours, minutes, seconds = '0'] = CLOCK.exec(cell) ?? [];
  const [minute, second] = [Number(minutes), Number(seconds.replace(',', '.'))];
  return minute < 60 && second < 60 ? Number(hours) * 3600 + minute * 60 + second : Number.NaN;
}

/** Without a zone all rows count as of the same one: only the differences matter. */
function readDate(cell: string): number {
  const [, year, month, day, hours, minutes, seconds = '0', zone = 'Z'] = DATE.exec(cell) ?? [];
  if (year === undefined) return Number.NaN;
  const colon = /^[+-]\d{4}$/u.test(zone) ? `${zone.slice(0, 3)}:${zone.slice(3)}` : zone;
  const minuteMs = Date.parse(`${year}-${month}-${day}T${hours}:${minutes}:00${colon}`);
  const second = Number(seconds.replace(',', '.'));
  return second < 60 ? minuteMs / 1000 + second : Number.NaN;
}
