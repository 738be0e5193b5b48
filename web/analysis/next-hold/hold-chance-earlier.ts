/** What the earlier holds of a system, with nothing but pumping since, tell of the next one. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { EarlierTold, Estimate, ToldHold } from '../conclusions.ts';
import { logShareAbove } from '../fitting/truncated-normal.ts';
import type { History } from '../readings/history.ts';
import { spanOf } from '../rise/hold-fit.ts';
import { holdSeen } from '../rise/hold-seen.ts';
import { isTelling } from '../stages/holds.ts';
import { fitHold, toldBefore } from '../verdict/past-holds.ts';

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
  const before = toldBefore(history, holds, sheet);
  const fit = fitHold(history, spanOf(latest), sheet, latest.toS, before);
  const { startPa } = holdSeen(history, latest.fromS, latest.toS);
  if (fit === null || startPa === null) return null;
  // What is in balance with the walls ends as high as before, wherever it starts.
  const startsLowerPa = Math.max(startPa.estimate - allowed.startPa, 0);
  const mostPa = startPa.estimate - startsLowerPa + allowed.risePa;
  return {
    leaks: fit.posterior.leakAbove(sheet.leakLimitPaPerS),
    leaksTooMuch: fit.posterior.leakAbove(allowed.inflowPaPerS),
    risesTooMuch: shareAboveOf(fit.endPa, mostPa),
    leakPaPerS: fit.leakPaPerS,
    endPa: fit.endPa,
  };
}

/** Of an estimate, as of a normal distribution on either side of it. */
function shareAboveOf({ estimate, low, high }: Estimate, limit: number): number {
  const side = limit > estimate ? high - estimate : estimate - low;
  if (side <= 0) return limit < estimate ? 1 : 0;
  return Math.exp(logShareAbove((estimate - limit) / (side / Z95)));
}
