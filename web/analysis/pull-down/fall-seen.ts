/** The steepest fall that a pull-down has shown. */
import type { PullDownPoint } from './pull-down-points.ts';

/** Noise makes falls between neighbours steep: no closer than this, s. A setting of ours. */
const APART_S = 10;

/** −d ln P / dt, 1/s; 0 where it never fell. */
export function steepestFallPerS(points: readonly PullDownPoint[]): number {
  let steepest = 0;
  let start = 0;
  for (const [i, { elapsedS, pressurePa }] of points.entries()) {
    while (start < i && elapsedS - (points[start + 1]?.elapsedS ?? elapsedS) >= APART_S) start += 1;
    const from = points[start];
    if (!from || elapsedS - from.elapsedS < APART_S) continue;
    const perS = Math.log(from.pressurePa / pressurePa) / (elapsedS - from.elapsedS);
    steepest = Math.max(steepest, perS);
  }
  return steepest;
}
