/** The speeds of a rehearsal as choices of a form, and back. */
import { REHEARSAL_RATES } from '../../protocol/api.ts';

export type Rate = (typeof REHEARSAL_RATES)[number];

export function rateFrom(choice: string): Rate {
  return REHEARSAL_RATES.find((rate) => String(rate) === choice) ?? 1;
}
