/** How a pull-down departs from what the rig should manage, and what a pump alone should reach. */
import type { Estimate } from '../analysis/conclusions.ts';
import { sayRoughDuration } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { sayPressure, sayPressureBetween, saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

type SaidDeviation =
  | { readonly kind: 'slower'; readonly factor: Estimate }
  | {
      readonly kind: 'plateau' | 'standstill';
      readonly pressurePa: number;
      readonly sinceS: number;
    }
  | { readonly kind: 'floor'; readonly floorPa: Estimate };

export function sayDeviation(deviation: SaidDeviation, nowS: number, speech: Speech): string {
  const words = speech.wording.planning.deviation;
  switch (deviation.kind) {
    case 'slower':
      return words.slower({
        low: sayNumber(deviation.factor.low, speech, 2),
        high: sayNumber(deviation.factor.high, speech, 2),
      });
    case 'plateau':
    case 'standstill':
      return words[deviation.kind]({
        pressure: sayPressure(deviation.pressurePa, speech),
        since: sayRoughDuration(nowS - deviation.sinceS),
      });
    case 'floor':
      return words.floor({ between: sayPressureBetween(deviation.floorPa, speech) });
  }
}

/** @param ultimatePa as entered; null: as is usual */
export function sayPumpShouldReach(
  ultimatePa: number | null,
  shouldReachPa: number,
  speech: Speech,
): string {
  const words = speech.wording.planning.pumpCheck;
  return ultimatePa === null
    ? words.usual({ pressure: saySetting(shouldReachPa, speech) })
    : words.entered({
        pressure: saySetting(ultimatePa, speech),
        good: saySetting(shouldReachPa, speech),
      });
}
