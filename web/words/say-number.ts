/** A number to three significant digits, as a person reads it: 0.612, 61.2, 612, 6120, 61 200. */
import type { Speech } from './speech.ts';

const DIGITS = 3;
/** Keeps the thousands together without a line break. */
const FIRM_SPACE = '\u00a0';
const MINUS = '\u2212';

/** With the decimal mark of the language: '61.2', '61,2'. */
export function sayNumber(value: number, speech: Speech, digits = DIGITS): string {
  if (!Number.isFinite(value)) return speech.wording.amounts.unknown;
  if (value === 0) return '0';
  // Rounded first: 9.996 has one digit before the point, and 10.0 has two.
  const magnitude = Number(Math.abs(value).toPrecision(digits));
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(magnitude)));
  const text = magnitude.toFixed(Math.min(decimals, 12));
  return (value < 0 ? MINUS : '') + groupThousands(text, speech.decimalMark);
}

/** A whole number, with all its digits: '2 304 000'. */
export function sayCount(count: number, speech: Speech): string {
  return groupThousands(String(count), speech.decimalMark);
}

/** All its digits, without thousands' gaps, so that it can be typed over. */
export function sayExactly(value: number, speech: Speech): string {
  return String(value).replace('.', speech.decimalMark).replace('-', MINUS);
}

/** A gap between thousands from 10 000 on; a four-digit number is read at one glance. */
function groupThousands(text: string, decimalMark: string): string {
  const [whole = '', fraction] = text.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/gu, FIRM_SPACE) : whole;
  return fraction === undefined ? grouped : `${grouped}${decimalMark}${fraction}`;
}
