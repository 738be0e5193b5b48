/** The readings that the stages are told from: whole hours in a bounded number of bins. */
import type { TimeBin } from './bin-level.ts';
import type { History } from './history.ts';

/** So long at least is looked at second by second, that a hold shows within half a minute at any hour … */
const FINE_S = 2048;
/** … and what came before in coarser bins, the border moving in steps: what has been told stays told. */
const STEP_S = 1024;

/** Up to `nowS`, in order; no more than 4096 + 3072 of them. */
export function stageBins(history: History, nowS: number): TimeBin[] {
  const borderS = Math.floor((nowS - FINE_S) / STEP_S) * STEP_S;
  if (borderS <= 0) return history.bins(-1, nowS);
  return [...history.bins(-1, borderS), ...history.bins(borderS, nowS)];
}
