/** Which of the releases of a design its best fit uses. */
import { solveNonnegative, type NormalEquations } from '../fitting/nonnegative-least-squares.ts';
import type { Design } from './rise-design.ts';

export interface UsedRelease {
  /** Among the design's shapes. */
  readonly place: number;
  readonly amountPa: number;
}

/** @param withLeak whether there may be steady inflow beside them */
export function releasesUsed(design: Design, withLeak: boolean): UsedRelease[] {
  // The leak is the first of the shapes.
  const first = withLeak ? 0 : 1;
  const { coefficients } = solveNonnegative(withLeak ? design : withoutLeak(design), []);
  const used: UsedRelease[] = [];
  for (const [i, amountPa] of coefficients.entries()) {
    if (amountPa > 0 && i + first > 0) used.push({ place: i + first, amountPa });
  }
  return used;
}

function withoutLeak({ gram, moments, size, total }: Design): NormalEquations {
  const left = size - 1;
  const releases = new Float64Array(left * left);
  for (let i = 0; i < left; i += 1) {
    releases.set(gram.subarray((i + 1) * size + 1, (i + 2) * size), i * left);
  }
  return { gram: releases, moments: moments.subarray(1), total };
}
