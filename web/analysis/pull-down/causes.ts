/** Why the pull-down is as it is: the causes that its curve allows, ranked by what speaks for each. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Cause, RankedCause } from '../conclusions.ts';
import { flatnessOf, type TailExponent } from './tail-exponent.ts';

export interface Evidence {
  /** 0 to 1: that water boils, from pressure and slope. */
  readonly boiling: number;
  /** The pressure is one at which water may boil, or cool while it boils. */
  readonly mayBeWater: boolean;
  /** The curve levels off above the target. */
  readonly isFloor: boolean;
  /** How the pressure falls of late, as a power of time; null where that can't be told. */
  readonly exponent: TailExponent | null;
  readonly isRising: boolean;
  readonly isBallastOpen: boolean;
}

/**
 * Exponents: gas and a pump fall faster than any tail, whose exponent is 0.5 to about 1 (diffusion,
 * many binding energies); below that it is nearly a floor. Between them the causes share the weight.
 */
const TAIL_AT_MOST = 1.1;
const GAS_FROM = 2;
/** A cause with less weight than this is not worth a check. */
const LEAST_WEIGHT = 0.02;

export function rankCauses(evidence: Evidence): RankedCause[] {
  const { isFloor, exponent, isRising } = evidence;
  const fall = exponent?.value ?? GAS_FROM;
  const gas = between((fall - TAIL_AT_MOST) / (GAS_FROM - TAIL_AT_MOST));
  const flat = flatnessOf(exponent);
  // Flat where water may be is water first: a floor there has to last to be believed.
  const boiling = Math.max(evidence.boiling, evidence.mayBeWater ? flat : 0);
  // Vapour that leaves the pump's oil lets the floor sink, slowly but beyond doubt.
  const sinks = isFloor && exponent !== null && exponent.value > 2 * exponent.error;
  const weights: [Cause, number][] = [
    ['rising', isRising ? 5 : 0],
    ['boil_off', (isFloor ? 1 : 3) * boiling],
    ['ballast', evidence.isBallastOpen ? 1.5 * flat : 0],
    ['floor', isFloor ? 2 : 0.7 * flat * (1 - boiling)],
    ['wet_oil', sinks ? 1 : 0],
    ['slow_tail', Math.max((1 - gas) * (1 - flat) * (1 - 0.9 * boiling), isFloor ? 0.1 : 0)],
    ['gas', gas * (1 - boiling)],
  ];
  const total = weights.reduce((sum, [, weight]) => sum + weight, 0);
  if (!(total > 0)) return [{ cause: 'slow_tail', weight: 1 }];
  return weights
    .filter(([, weight]) => weight / total > LEAST_WEIGHT)
    .sort(([, a], [, b]) => b - a)
    .map(([cause, weight]) => ({ cause, weight: weight / total }));
}

export function isBallastOpen(marks: readonly Mark[]): boolean {
  const last = marks.findLast(({ kind }) => kind === 'ballast_opened' || kind === 'ballast_closed');
  return last?.kind === 'ballast_opened';
}

function between(share: number): number {
  return Math.min(Math.max(share, 0), 1);
}
