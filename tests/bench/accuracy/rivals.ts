/** Simple forecasts that ours must beat, in the same table. */
import { linearRegression } from 'simple-statistics';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';

type Place = readonly [x: number, logPressure: number];

/** By eye: a straight line through the last minute's log pressure. Remaining s, or null. */
export function lastMinuteS(
  points: readonly HistoryPoint[],
  nowS: number,
  targetPa: number,
): number | null {
  const places = placed(points, nowS - 60, nowS, (elapsedS) => elapsedS - nowS);
  return crossing(places, targetPa);
}

/** A straight line in log pressure over the log of time since pump on, through the latter half of it. */
export function logTimeS(
  points: readonly HistoryPoint[],
  pumpOnS: number,
  nowS: number,
  targetPa: number,
): number | null {
  const fromS = pumpOnS + (nowS - pumpOnS) / 2;
  const places = placed(points, fromS, nowS, (elapsedS) => Math.log(elapsedS - pumpOnS));
  const logS = crossing(places, targetPa);
  if (logS === null) return null;
  const remainingS = Math.exp(logS) - (nowS - pumpOnS);
  return Number.isFinite(remainingS) ? Math.max(remainingS, 0) : null;
}

function placed(
  points: readonly HistoryPoint[],
  fromS: number,
  toS: number,
  x: (elapsedS: number) => number,
): Place[] {
  return points.flatMap(({ elapsedS, pressurePa }) =>
    elapsedS > fromS && elapsedS <= toS && pressurePa !== null && pressurePa > 0
      ? [[x(elapsedS), Math.log(pressurePa)] as const]
      : [],
  );
}

/** Where the line through the places comes down to the target; null where it doesn't fall. */
function crossing(places: readonly Place[], targetPa: number): number | null {
  if (places.length < 3) return null;
  const { m, b } = linearRegression(places.map(([x, y]) => [x, y]));
  return m < 0 ? (Math.log(targetPa) - b) / m : null;
}
