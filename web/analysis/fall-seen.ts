/** The steepest fall that a pull-down has shown. */
import type { PullDownPoint } from './pull-down-points.ts';

/** Noise makes falls between neighbours steep: no closer than this, s. A setting of ours. */
const APART_S = 10;

interface Fall {
  /** −d ln P / dt, 1/s. */
  readonly perS: number;
  /** Where it began, Pa. */
  readonly pressurePa: number;
}

/** @returns null where it never fell */
export function steepestFall(points: readonly PullDownPoint[]): Fall | null {
  let steepest: Fall | null = null;
  let start = 0;
  for (const [i, { elapsedS, pressurePa }] of points.entries()) {
    while (start < i && elapsedS - (points[start + 1]?.elapsedS ?? elapsedS) >= APART_S) start += 1;
    const from = points[start];
    if (!from || elapsedS - from.elapsedS < APART_S) continue;
    const perS = Math.log(from.pressurePa / pressurePa) / (elapsedS - from.elapsedS);
    if (perS > (steepest?.perS ?? 0)) steepest = { perS, pressurePa: from.pressurePa };
  }
  return steepest;
}
