/** The chance that the hold passes, as a line for whoever is about to turn the valve. */
import type { EarlierTold, HoldChance } from '../analysis/conclusions.ts';
import { sayPressure, sayRateBetween, saySetting } from './say-pressure.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

/** From here on, and from there down, a word says more than two figures. Settings of ours. */
const LIKELY = 0.8;
const UNLIKELY = 0.2;
/** The figures are no more exact than this, per cent. */
const ROUGHLY = 5;

export const IF_VALVED_OFF = 'If valved off now:';

/** What follows those words: 'the hold most likely fails, since water still boils.' */
export function sayHoldChance(chance: HoldChance, units: UnitsOfChoice): string {
  const { low, high, reasons } = chance;
  const decisive = reasons[0];
  if (decisive === undefined) return `${sayBetween(low, high)}.`;
  switch (decisive.kind) {
    case 'not_the_system':
      return 'the hold tells nothing of the system, since the sensor does not see it.';
    case 'pressure_unknown':
      return 'nobody knows, without a reading.';
    case 'stands_too_high': {
      return `the hold fails, since it starts above ${saySetting(decisive.limitPa, units.pressure)}.`;
    }
    case 'changed_since_hold':
      return 'the curve can’t tell whether the hold passes, and the last hold counts no more.';
    case 'curve_silent':
      return 'the curve alone can’t tell whether the hold passes.';
    case 'water_boils':
    case 'little_inflow':
    case 'earlier_hold':
      return `${sayBetween(low, high)}${sayWhy(chance, units)}.`;
  }
}

function sayBetween(low: number, high: number): string {
  if (low >= LIKELY) return 'the hold most likely passes';
  if (high <= UNLIKELY) return 'the hold most likely fails';
  const [least, most] = [low, high].map((share) => ROUGHLY * Math.round((100 * share) / ROUGHLY));
  if (least === most) return `the hold passes with a chance of about ${String(most)} %`;
  if (least === 0 && most === 100) return 'nobody can tell whether the hold passes';
  if (least === 0) return `the hold passes with a chance of ${String(most)} % at most`;
  if (most === 100) return `the hold passes with a chance of ${String(least)} % at least`;
  return `the hold passes with a chance between ${String(least)} and ${String(most)} %`;
}

/** Of the reasons the one that made the figures what they are. */
function sayWhy({ low, high, reasons }: HoldChance, units: UnitsOfChoice): string {
  const load = reasons.find(({ kind }) => kind === 'little_inflow');
  if (load?.kind === 'little_inflow' && low >= LIKELY) {
    return `: no more than ${sayPressure(load.mostRisePa, units.pressure)} can come in`;
  }
  const boils = reasons.some(({ kind }) => kind === 'water_boils');
  if (boils && high <= UNLIKELY) return ', since water still boils';
  const earlier = reasons.find(({ kind }) => kind === 'earlier_hold');
  if (earlier?.kind === 'earlier_hold') return sayEarlier(earlier, units);
  return boils ? ', since water may still boil' : '';
}

function sayEarlier(
  { leaks, leaksTooMuch, risesTooMuch, leakPaPerS }: EarlierTold,
  units: UnitsOfChoice,
): string {
  if (leaksTooMuch >= LIKELY && leaks < LIKELY) return ': so little room is left below the limit';
  if (leaksTooMuch >= LIKELY) {
    return `: the last one showed a steady inflow, ${sayRateBetween(leakPaPerS, units.pressure)}`;
  }
  if (leaksTooMuch + risesTooMuch <= UNLIKELY) {
    return ': the last one came to little, and pumping has gone on since';
  }
  return leaksTooMuch <= UNLIKELY
    ? ': the last one showed no leak, and what has dried since is not known'
    : ': the last one left open whether it leaks';
}
