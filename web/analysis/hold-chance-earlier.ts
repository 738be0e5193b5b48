/** What the earlier holds of a system, with nothing but pumping since, tell of the next one. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { EarlierTold, Estimate, ToldHold } from './conclusions.ts';
import type { History } from './history.ts';
import { holdSeen } from './hold-seen.ts';
import { shareAbove } from './leak-estimate.ts';
import { leakPrior } from './leak-prior.ts';
import type { LeakTold } from './leak-told.ts';
import { isTelling, repeatedBefore, spanOf } from './holds.ts';
import { fitHold, leakToldBy } from './rise.ts';
import { logShareAbove } from './truncated-normal.ts';

/** What the next hold is allowed. */
export interface Allowed {
  readonly inflowPaPerS: number;
  readonly risePa: number;
  /** Where it would start, Pa. */
  readonly startPa: number;
}

/** 95 % point of the normal distribution. */
const Z95 = 1.6449;

/**
 * @param holds all so far; the latest is the one that the next would repeat
 * @returns null where the latest has too few readings for any fit, or tells of nothing but the pump
 */
export function earlierTold(
  history: History,
  holds: readonly ToldHold[],
  sheet: Sheet,
  allowed: Allowed,
): EarlierTold | null {
  const latest = holds.at(-1);
  if (latest === undefined || !isTelling(latest)) return null;
  const before = repeatedBefore(holds).flatMap(
    (hold) => leakToldBy(history, spanOf(hold), sheet, hold.toS) ?? [],
  );
  const fit = fitHold(history, spanOf(latest), sheet, latest.toS, before);
  const { startPa } = holdSeen(history, latest.fromS, latest.toS);
  if (fit === null || startPa === null) return null;
  const { told, agreeing } = fit.posterior;
  const isOneLeak = agreeing === before.length;
  // What is in balance with the walls ends as high as before, wherever it starts.
  const startsLowerPa = Math.max(startPa.estimate - allowed.startPa, 0);
  const mostPa = startPa.estimate - startsLowerPa + allowed.risePa;
  return {
    leaksTooMuch: leakAbove(told, isOneLeak ? before : [], sheet, allowed.inflowPaPerS),
    risesTooMuch: shareAboveOf(fit.endPa, mostPa),
    leakPaPerS: fit.leakPaPerS,
    endPa: fit.endPa,
  };
}

/** The probability that the inflow is above a limit, by these holds and what is known beforehand. */
function leakAbove(
  own: LeakTold,
  others: readonly LeakTold[],
  { leakLimitPaPerS }: Sheet,
  limitPaPerS: number,
): number {
  const nodes = own.atPaPerS;
  const logs = nodes.map((leak) =>
    [own, ...others].reduce((sum, told) => sum + told.logLikelihoodAt(leak), 0),
  );
  const top = Math.max(...logs);
  const prior = leakPrior(nodes, leakLimitPaPerS);
  const weights = Float64Array.from(logs, (log, n) => Math.exp(log - top) * (prior[n] ?? 0));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return shareAbove(nodes, weights, total, limitPaPerS);
}

/** Of an estimate, as of a normal distribution on either side of it. */
function shareAboveOf({ estimate, low, high }: Estimate, limit: number): number {
  const side = limit > estimate ? high - estimate : estimate - low;
  if (side <= 0) return limit < estimate ? 1 : 0;
  return Math.exp(logShareAbove((estimate - limit) / (side / Z95)));
}
