/** What holds that are over tell, and the present one told a little earlier: fitted once, then kept. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { History } from './history.ts';
import type { ToldHold } from './conclusions.ts';
import { repeatedBefore, spanOf } from './holds.ts';
import { fittedHold, type FittedHold, type HoldSpan } from './hold-fit.ts';
import type { LeakTold } from './leak-told.ts';
import type { RiseFit } from './rise-fit.ts';
import { isFalling } from './rise-signs.ts';

/** What the holds that the latest one repeats tell of the inflow. */
export function toldBefore(history: History, holds: readonly ToldHold[], sheet: Sheet): LeakTold[] {
  return repeatedBefore(holds).flatMap((hold) => {
    const { fit } = fittedBefore(history, spanOf(hold), sheet, hold.toS, []);
    return fit?.posterior.told ?? [];
  });
}

/** The fit of a hold that is over; null where there are too few readings, or where the pressure fell. */
export function fitHold(
  history: History,
  hold: HoldSpan,
  sheet: Sheet,
  endS: number,
  earlier: readonly LeakTold[],
): RiseFit | null {
  const { fit, points } = fittedBefore(history, hold, sheet, endS, earlier);
  return isFalling(points) ? null : fit;
}

/** One fit of a past stretch, and all that it depends on. */
interface PastFit {
  readonly isolatedS: number;
  readonly isMarked: boolean;
  readonly sheet: Sheet;
  readonly untilS: number;
  readonly earlier: readonly LeakTold[];
  readonly lateReadings: number;
  readonly fitted: FittedHold;
}

/** So many past fits of a recording are kept: its earlier holds, and the moments looked back at. */
const KEPT = 24;
const pastFits = new WeakMap<History, PastFit[]>();

/**
 * The same as `fittedHold` for a moment that is past. Every judgement asks for the same ones again,
 * and no reading but a late one can change them.
 */
export function fittedBefore(
  history: History,
  hold: HoldSpan,
  sheet: Sheet,
  untilS: number,
  earlier: readonly LeakTold[],
): FittedHold {
  if (history.lastS === null || history.lastS <= untilS) {
    return fittedHold(history, hold, sheet, untilS, earlier);
  }
  const { isolatedS, isMarked } = hold;
  const { lateReadings } = history;
  const kept = pastFits.get(history) ?? [];
  const known = kept.find(
    (past) =>
      past.isolatedS === isolatedS &&
      past.isMarked === isMarked &&
      past.sheet === sheet &&
      past.untilS === untilS &&
      past.lateReadings === lateReadings &&
      past.earlier.length === earlier.length &&
      past.earlier.every((told, i) => told === earlier[i]),
  );
  const fitted = known?.fitted ?? fittedHold(history, hold, sheet, untilS, earlier);
  const found = { isolatedS, isMarked, sheet, untilS, earlier, lateReadings, fitted };
  pastFits.set(history, [found, ...kept.filter((past) => past !== known)].slice(0, KEPT));
  return fitted;
}
