/** Where the expected curve lies in a recording, and whether the measured one is far ahead of it. Pure. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { ChannelReadings } from '../store/channel-readings.ts';
import { type ExpectedCurve, timeToS } from './expected-pull-down.ts';

/** A reading longer ago than this says nothing about the moment at which the pump was switched on. */
const BEGINNING_S = 10;
/** Volumes are guessed to a quarter at best; less time than this share is no such error. Ours. */
const FAST_SHARE = 0.6;
/** A mark comes some seconds late, and a sensor follows late. Ours. */
const FAST_BY_S = 10;

/**
 * The data time at which the expected curve begins, s: that of the pull-down where the system stood
 * open then, so much earlier where the sensor already read less. Null outside a pull-down, and where
 * it began below all that the curve reaches.
 */
export function expectedStartS(
  curve: ExpectedCurve,
  readings: ChannelReadings,
  conclusions: Conclusions | null,
): number | null {
  const stage = conclusions?.stage.name;
  const pullDownS = conclusions?.pullDownS ?? null;
  if (pullDownS === null || (stage !== 'pull_down' && stage !== 'at_depth')) return null;
  for (let row = readings.rowFrom(pullDownS + 1) - 1; row >= 0; row -= 1) {
    const { elapsedS, pressurePa, condition } = readings.reading(row);
    if (elapsedS < pullDownS - BEGINNING_S || condition === 'over_range') return pullDownS;
    if (pressurePa === null) continue;
    const alreadyS = timeToS(curve, pressurePa);
    return alreadyS === null ? null : elapsedS - alreadyS;
  }
  return pullDownS;
}

/** Whether target or present pressure was reached in far less time than the rig should take. */
export function isTooFast(
  curve: ExpectedCurve,
  startS: number,
  { nowS, pressurePa, targetReachedS }: Conclusions,
  { targetPa }: Pick<Sheet, 'targetPa'>,
): boolean {
  const reachedPa = targetReachedS === null ? pressurePa : targetPa;
  if (reachedPa === null) return false;
  const tookS = (targetReachedS ?? nowS) - startS;
  const expectedS = timeToS(curve, reachedPa);
  // Below all that the curve reaches, an entry is wrong, or the sensor is: time says nothing.
  if (expectedS === null) return false;
  return tookS < expectedS * FAST_SHARE && expectedS - tookS > FAST_BY_S;
}
