/** The water that a pull-down took away, or why that is not known. */
import type { WaterFound } from '../analysis/flows/water-found.ts';
import { sayBetween } from './say-between.ts';
import { sayMoment } from './say-duration.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayExactly } from './say-number.ts';
import { sayPressure } from './say-pressure.ts';
import type { Speech } from './speech.ts';

const WHOLE_NUMBERS_FROM = 0.01;

/** 'about 1.3 g, between 0.62 and 2.8'. */
export function sayWaterRemoved(found: WaterFound, speech: Speech): string {
  const words = speech.wording.numbers.water;
  const grams = (digits: string) => `${digits} g`;
  switch (found.kind) {
    case 'no_plateau':
      return words.noPlateau;
    case 'no_speed':
      return found.volumeKnown ? words.noSpeed : words.noVolume;
    case 'grams':
      return found.grams.high < WHOLE_NUMBERS_FROM
        ? words.lessThan({ amount: grams(sayExactly(WHOLE_NUMBERS_FROM, speech)) })
        : sayBetween(found.grams, (value) => sayMagnitude(value, speech), grams, speech);
  }
}

/** Where it was seen and what it rests on; empty where there is nothing. */
export function sayWaterConditions(found: WaterFound, speech: Speech): string {
  const words = speech.wording.numbers.water;
  if (found.kind === 'no_plateau') return '';
  const { fromS, toS, pressurePa } = found.plateau;
  const boiled = words.boiled({
    from: sayMoment(fromS),
    to: sayMoment(toS),
    pressure: sayPressure(pressurePa, speech),
  });
  if (found.kind === 'no_speed') return boiled;
  return found.speedFrom === 'curve'
    ? words.speedFromCurve({ boiled })
    : words.speedFromRig({ boiled });
}
