/** What a rehearsal really was. */
import type { Reveal } from '../../protocol/api.ts';
import type { PressureUnit } from '../../protocol/units.ts';
import { saySetting } from './say-pressure.ts';
import { sayNumber } from './say-number.ts';

export function sayTruthNumbers(
  reveal: Pick<Reveal, 'leakPaPerS' | 'waterKgAtStart'>,
  unit: PressureUnit,
): string {
  const inflow =
    reveal.leakPaPerS > 0
      ? `A steady inflow of ${saySetting(reveal.leakPaPerS * 60, unit)} a minute`
      : 'No inflow';
  const water =
    reveal.waterKgAtStart > 0
      ? `${sayNumber(reveal.waterKgAtStart * 1000, 2)} g of water at the start`
      : 'no water';
  return `${inflow}, ${water}.`;
}

/** A rehearsal's recording bears the name of its scenario, which is written for addresses. */
export function sayRehearsalTitle(title: string): string {
  return `Rehearsal: ${title.replaceAll('-', ' ')}`;
}
