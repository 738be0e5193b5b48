/** Gathers from the facts what the chance of a hold is told by. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import type { Forecast, HoldChance, ToldHold } from '../conclusions.ts';
import type { PullDownPoint } from '../pull-down/pull-down-points.ts';
import type { History } from '../readings/history.ts';
import { isChanged } from '../stages/holds.ts';
import { earlierTold } from './hold-chance-earlier.ts';
import { mostInflowPaPerS } from './hold-chance-load.ts';
import { allowedFrom, holdChance, isBelow } from './hold-chance.ts';

/** Under pumping. */
export interface PumpingNow {
  readonly nowS: number;
  /** When this stretch of pumping began. */
  readonly sinceS: number;
  readonly pressurePa: number | null;
  readonly relativeRatePerS: number | null;
  /** Since the rig last became another. */
  readonly points: readonly PullDownPoint[];
  readonly forecast: Forecast | null;
}

/** @param past marks up to now, in order of time */
export function holdChanceNow(
  history: History,
  { nowS, sinceS, pressurePa, relativeRatePerS, points, forecast }: PumpingNow,
  holds: readonly ToldHold[],
  past: readonly Mark[],
  sheet: Sheet,
): HoldChance {
  const latest = holds.at(-1);
  const changedSinceHold =
    latest !== undefined && (sinceS > latest.toS || isChanged(past, latest.fromS, nowS));
  // Above its limit a hold fails whatever an earlier one tells, which takes long to work out.
  const counts = pressurePa !== null && isBelow(pressurePa, sheet);
  const earlier =
    counts && !changedSinceHold
      ? earlierTold(history, holds, sheet, allowedFrom(pressurePa, sheet))
      : null;
  const mostPaPerS =
    counts && relativeRatePerS !== null
      ? mostInflowPaPerS(pressurePa, relativeRatePerS, points, sheet)
      : null;
  return holdChance(
    { pressurePa, forecast, mostInflowPaPerS: mostPaPerS, earlier, changedSinceHold },
    sheet,
  );
}
