/** The time to a depth: where the curve extrapolates to, and how long such things last at all. */
import type { Remaining } from '../conclusions.ts';
import { LONGEST_S, type Arrival } from './outlook.ts';
import { densityOf, overAfterS, overBy, stillOn, type ScaleFree } from './scale-free.ts';

/**
 * The middle of what is believed before any extrapolation, in terms of the age: gas goes fast and what
 * follows goes slowly, so that more lies ahead than behind. A setting of ours: 1 and 2 do nearly as
 * well on training curves.
 */
const AHEAD = 1.5;
/**
 * Half of the chance that it never gets there counts as the caution of a prior that doesn't know this
 * rig, the other half as delay beyond all bounds.
 */
const NEVER_SHARE = 0.5;
/**
 * The share of what extrapolates that lies below the early end. Falls slow down more than they are foretold to: while as
 * much or more is ahead than is behind, the truth was before a tenth of it in 1 to 8 of a hundred pull-downs of three
 * worlds, and in 3 to 18 near the end (`npm run accuracy`, training seeds). So there the early end lies where more is
 * below it; in between by the logarithm of what is ahead in terms of the age. Water that may be gone at once counts as
 * it is. Settings of ours.
 */
const LOW_TAIL = 0.1;
const LOW_TAIL_AHEAD = 0.22;
const NEAR_THE_END = 0.25;
/** Above the late end: with a tenth the truth was beyond it in 3 to 9 of a hundred but at 30 % of the time, by the same curves. */
const HIGH_TAIL = 0.12;
/** Less than that of an extrapolation's weight is none: where it never arrives nothing is left of it. */
const LEAST_WEIGHT = 1e-6;

/**
 * @param arrival of the extrapolated curve
 * @param waiting of what no curve shows: water that may have to boil away first
 * @param priorShare probability, before the curve is looked at, that there is such a thing
 */
export function remainingFrom(
  { moments }: Arrival,
  waiting: ScaleFree,
  priorShare: number,
): Remaining {
  const { ageS } = waiting;
  const masses: number[] = [];
  let [before, lasts] = [0, 0];
  for (const { afterS, chance } of moments) {
    masses.push((chance - before) * densityOf(ageS, AHEAD, afterS));
    lasts += (chance - before) * stillOn(ageS, AHEAD, afterS);
    before = chance;
  }
  lasts += (1 - before) * stillOn(ageS, AHEAD, LONGEST_S);
  // Bayes: that it should take so long yet without any water is seldom, with water it is no wonder.
  const share = priorShare / (priorShare + (1 - priorShare) * lasts);
  const arrives = masses.reduce((sum, mass) => sum + mass, 0);
  // Later than eight hours things are so late that few such are met, but while minutes are left of
  // what is sure enough, an age of hours must not make more of never than the curve does.
  const late = Math.min(densityOf(ageS, AHEAD, LONGEST_S), arrives / before);
  const total = arrives + NEVER_SHARE * (1 - before) * late;
  if (share >= 1 || arrives < LEAST_WEIGHT) return remainingOf(waiting);
  let sum = 0;
  const extrapolated = moments.map(({ afterS }, i) => {
    sum += (masses[i] ?? 0) / total;
    return { afterS, chance: sum };
  });
  const withWater = (counts: number) =>
    extrapolated.map(({ afterS, chance }) => ({
      afterS,
      chance: (1 - share) * counts * chance + share * overBy(waiting, afterS),
    }));
  const either = withWater(1);
  const p50S = quantileS(either, 0.5);
  if (!Number.isFinite(p50S)) return remainingOf(waiting);
  const p90S = quantileS(either, 1 - HIGH_TAIL);
  const early = withWater(LOW_TAIL / lowTail(p50S / Math.max(ageS, 1)));
  const p10S = quantileS(early, LOW_TAIL);
  return { p10S, p50S, p90S: Number.isFinite(p90S) ? p90S : null };
}

/** @param ahead in terms of the age */
function lowTail(ahead: number): number {
  const early = Math.log(Math.max(ahead, NEAR_THE_END) / NEAR_THE_END) / -Math.log(NEAR_THE_END);
  return LOW_TAIL + (LOW_TAIL_AHEAD - LOW_TAIL) * Math.min(early, 1);
}

/** Where nothing is known but the age. */
export function remainingOf(waiting: ScaleFree): Remaining {
  const at = (probability: number) => overAfterS(waiting, probability);
  return { p10S: at(0.1), p50S: at(0.5), p90S: at(0.9) };
}

/** Straight over the logarithm of time between the moments; infinite beyond the last. */
export function quantileS(
  moments: readonly { readonly afterS: number; readonly chance: number }[],
  probability: number,
): number {
  const at = moments.findIndex(({ chance }) => chance >= probability);
  const [before, here] = [moments[at - 1], moments[at]];
  if (!here) return Infinity;
  // Before the first moment it is as good as there.
  if (!before) return (here.afterS * probability) / Math.max(here.chance, 1e-9);
  const share = (probability - before.chance) / (here.chance - before.chance);
  return before.afterS * (here.afterS / before.afterS) ** share;
}
