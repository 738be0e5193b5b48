/** The chance that the hold passes, as a line for whoever is about to turn the valve. */
import type { EarlierTold, HoldChance } from '../analysis/conclusions.ts';
import { sayPressure, sayRateBetween, saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** From here on, and from there down, a word says more than two figures. Settings of ours. */
const LIKELY = 0.8;
const UNLIKELY = 0.2;
/** The figures are no more exact than this, per cent. */
const ROUGHLY = 5;

/** What follows 'If valved off now:': 'the hold most likely fails, since water still boils.' */
export function sayHoldChance(chance: HoldChance, speech: Speech): string {
  const words = speech.wording.holdChance;
  const { low, high, reasons } = chance;
  const decisive = reasons[0];
  if (decisive === undefined) {
    return words.because({ chance: sayBetween(low, high, speech), why: '' });
  }
  switch (decisive.kind) {
    case 'not_the_system':
      return words.notTheSystem;
    case 'pressure_unknown':
      return words.pressureUnknown;
    case 'stands_too_high':
      return words.standsTooHigh({ limit: saySetting(decisive.limitPa, speech) });
    case 'changed_since_hold':
      return words.changedSinceHold;
    case 'curve_silent':
      return words.curveSilent;
    case 'water_boils':
    case 'little_inflow':
    case 'earlier_hold':
      return words.because({
        chance: sayBetween(low, high, speech),
        why: sayWhy(chance, speech),
      });
  }
}

function sayBetween(lowShare: number, highShare: number, { wording }: Speech): string {
  const words = wording.holdChance;
  if (lowShare >= LIKELY) return words.likely;
  if (highShare <= UNLIKELY) return words.unlikely;
  const roughly = (share: number) => ROUGHLY * Math.round((100 * share) / ROUGHLY);
  const [least, most] = [roughly(lowShare), roughly(highShare)];
  const [low, high] = [String(least), String(most)];
  if (least === most) return words.about({ percent: high });
  if (least === 0 && most === 100) return words.nobodyCanTell;
  if (least === 0) return words.atMost({ percent: high });
  if (most === 100) return words.atLeast({ percent: low });
  return words.between({ low, high });
}

/** Of the reasons the one that made the figures what they are. */
function sayWhy({ low, high, reasons }: HoldChance, speech: Speech): string {
  const words = speech.wording.holdChance;
  const load = reasons.find(({ kind }) => kind === 'little_inflow');
  if (load?.kind === 'little_inflow' && low >= LIKELY) {
    return words.littleCanComeIn({ most: sayPressure(load.mostRisePa, speech) });
  }
  const boils = reasons.some(({ kind }) => kind === 'water_boils');
  if (boils && high <= UNLIKELY) return words.stillBoils;
  const earlier = reasons.find(({ kind }) => kind === 'earlier_hold');
  if (earlier?.kind === 'earlier_hold') return sayEarlier(earlier, speech);
  return boils ? words.mayStillBoil : '';
}

function sayEarlier(
  { leaks, leaksTooMuch, risesTooMuch, leakPaPerS }: EarlierTold,
  speech: Speech,
): string {
  const words = speech.wording.holdChance;
  if (leaksTooMuch >= LIKELY && leaks < LIKELY) return words.littleRoom;
  if (leaksTooMuch >= LIKELY) {
    return words.steadyInflow({ inflow: sayRateBetween(leakPaPerS, speech) });
  }
  if (leaksTooMuch + risesTooMuch <= UNLIKELY) return words.cameToLittle;
  return leaksTooMuch <= UNLIKELY ? words.noLeakShown : words.leftOpen;
}
