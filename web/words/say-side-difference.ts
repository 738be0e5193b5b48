/** What a second sensor shows beside the one that is watched, after its name. */
import { pressureFromPa } from '../../protocol/units.ts';
import type { SideDifference } from '../analysis/seen/side-difference.ts';
import { sayNumber } from './say-number.ts';
import { withUnit } from './say-pressure.ts';
import type { Speech } from './speech.ts';

export interface Sides {
  /** The sensor that is watched. */
  readonly first: string;
  readonly difference: SideDifference;
  /** The gauges' error as a part of their reading, as on the job sheet; null where it is not known. */
  readonly gaugeErrorShare: number | null;
  /** Steps of their displays, of gauges that are read by eye, Pa. */
  readonly displayStepsPa: readonly number[];
}

/**
 * '34 micron below roof, give or take 3'; 'the same as roof within 9 micron' where their scatter, or
 * the error that the gauges are known to have, is more than what they differ by.
 */
export function saySideDifference(sides: Sides, speech: Speech): string {
  const words = speech.wording.beside;
  const unit = speech.units.pressure;
  const { first, difference } = sides;
  const within = pressureFromPa(undecidedPa(sides), unit);
  const apart = pressureFromPa(Math.abs(difference.differencePa), unit);
  if (apart <= within) {
    return words.same({ first, within: withUnit(sayNumber(within, speech, 2), speech) });
  }
  const say = difference.differencePa < 0 ? words.below : words.above;
  const orders = Math.floor(Math.log10(apart)) - Math.floor(Math.log10(within));
  const digits = Math.min(orders + 1, MOST_DIGITS);
  return say({
    apart: withUnit(sayNumber(apart, speech, digits), speech),
    first,
    within: sayNumber(within, speech, 1),
  });
}

/** Two gauges may be wrong in opposite ways; their scatter is taken twice: nineteen times of twenty. */
function undecidedPa({ difference, gaugeErrorShare, displayStepsPa }: Sides): number {
  const { scatterPa, firstPa, otherPa } = difference;
  const gaugesPa = (gaugeErrorShare ?? 0) * (firstPa + otherPa);
  const stepsPa = displayStepsPa.reduce((sum, step) => sum + step / 2, 0);
  return Math.max(2 * scatterPa, gaugesPa, stepsPa, LEAST_PA);
}

/** Down to the digit that is uncertain, and no reading of the trade has more. */
const MOST_DIGITS = 4;

/** A reading's last digit in the sensor profile is 1 mPa; two may be off by half of it each. */
const LEAST_PA = 0.001;
