/** Which of the releases of a design its best fit uses. */
import { rowsOf, solveNonnegative } from './nonnegative-least-squares.ts';
import type { Design } from './rise-design.ts';

export interface UsedRelease {
  /** Among the design's shapes. */
  readonly place: number;
  readonly amountPa: number;
}

/** @param withLeak whether there may be steady inflow beside them */
export function releasesUsed(design: Design, withLeak: boolean): UsedRelease[] {
  const { size, gram, moments, total } = design;
  // The leak is the first of the shapes.
  const first = withLeak ? 0 : 1;
  const rows = rowsOf(gram, size, first);
  const equations = { gram: rows, moments: Array.from(moments.subarray(first)), total };
  const { coefficients } = solveNonnegative(equations, new Array<boolean>(rows.length).fill(false));
  return coefficients.flatMap((amountPa, i) =>
    amountPa > 0 && i + first > 0 ? [{ place: i + first, amountPa }] : [],
  );
}
