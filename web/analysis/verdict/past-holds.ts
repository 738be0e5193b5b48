/** What holds that are over tell, and the present one told a little earlier: fitted once, then kept. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { ToldHold } from '../conclusions.ts';
import type { History } from '../readings/history.ts';
import { fittedHold, type FittedHold, type HoldSpan, spanOf } from '../rise/hold-fit.ts';
import type { LeakTold } from '../rise/leak-told.ts';
import type { RiseFit } from '../rise/rise-fit.ts';
import { isFalling } from '../rise/rise-signs.ts';
import { repeatedBefore } from '../stages/holds.ts';
import type { Judgement } from './verdict.ts';

/** What the holds that the latest one repeats tell of the inflow. */
export function toldBefore(history: History, holds: readonly ToldHold[], sheet: Sheet): LeakTold[] {
  return repeatedBefore(holds).flatMap((hold) => {
    const past = { hold: spanOf(hold), sheet, untilS: hold.toS, earlier: [] };
    const { fit } = fittedBefore(history, past);
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
  const { fit, points } = fittedBefore(history, { hold, sheet, untilS: endS, earlier });
  return isFalling(points) ? null : fit;
}

/** All that what a past stretch of a hold tells depends on. */
interface Past {
  readonly hold: HoldSpan;
  readonly sheet: Sheet;
  readonly untilS: number;
  readonly earlier: readonly LeakTold[];
}

interface Kept<T> extends Past {
  readonly lateReadings: number;
  readonly found: T;
}

/** So many earlier holds of a recording are kept … */
const FITS = 4;
const fits = new WeakMap<History, Kept<FittedHold>[]>();
/** … and of so many earlier moments of the present one what was judged: less to hold on to than a fit. */
const JUDGEMENTS = 24;
const judgements = new WeakMap<History, Kept<Judgement>[]>();

/** The same as `fittedHold` for a moment that is past. */
function fittedBefore(history: History, past: Past): FittedHold {
  const { hold, sheet, untilS, earlier } = past;
  return keptOf(fits, FITS, history, past, () => fittedHold(history, hold, sheet, untilS, earlier));
}

/** What was judged at a moment that is past, or is being judged now. */
export function judgedBefore(history: History, past: Past, judge: () => Judgement): Judgement {
  return keptOf(judgements, JUDGEMENTS, history, past, judge);
}

/** Every judgement asks for the same past moments again, and no reading but a late one changes them. */
function keptOf<T>(
  store: WeakMap<History, Kept<T>[]>,
  most: number,
  history: History,
  past: Past,
  find: () => T,
): T {
  const { lateReadings, lastS } = history;
  if (lastS === null || lastS <= past.untilS) return find();
  const kept = store.get(history) ?? [];
  const known = kept.find((one) => one.lateReadings === lateReadings && isSame(one, past));
  const found = known?.found ?? find();
  const others = kept.filter((one) => one !== known);
  store.set(history, [{ ...past, lateReadings, found }, ...others].slice(0, most));
  return found;
}

function isSame(a: Past, b: Past): boolean {
  return (
    a.hold.isolatedS === b.hold.isolatedS &&
    a.hold.isMarked === b.hold.isMarked &&
    a.hold.isolationSure === b.hold.isolationSure &&
    a.sheet === b.sheet &&
    a.untilS === b.untilS &&
    a.earlier.length === b.earlier.length &&
    a.earlier.every((told, i) => told === b.earlier[i])
  );
}
