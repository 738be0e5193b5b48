/** The speeds of a rehearsal as words, and back. */
import { REHEARSAL_RATES } from '../../protocol/api.ts';

export type Rate = (typeof REHEARSAL_RATES)[number];

export function rateWords(rate: number): string {
  return rate === 1 ? 'as in life' : `×${rate}`;
}

export function rateFrom(words: string): Rate {
  return REHEARSAL_RATES.find((rate) => rateWords(rate) === words) ?? 1;
}
