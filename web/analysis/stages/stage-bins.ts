/** The readings that the stages are told from: whole days in a bounded number of bins. */
import type { TimeBin } from '../readings/bin-level.ts';
import type { History } from '../readings/history.ts';

/** So long at least is looked at second by second, that a hold shows within half a minute at any hour … */
const FINE_S = 1024;
/** … and what came before in coarser bins, the border moving in steps: what has been told stays told. */
const STEP_S = 512;
/** Those of the last hour, which are fine as well, are put together to so many seconds. */
const COARSE_S = 4;

/** Before the first reading of any recording. */
const FROM_THE_FIRST_S = -1;

/** Up to `nowS`, in order; no more than 1536 fine ones and 4096 before them. */
export function stageBins(history: History, nowS: number): TimeBin[] {
  const borderS = stageBorderS(nowS);
  return [...coarseBins(history, borderS), ...history.bins(borderS, nowS)];
}

/** From where on it is looked at second by second. */
export function stageBorderS(nowS: number): number {
  const borderS = Math.floor((nowS - FINE_S) / STEP_S) * STEP_S;
  return borderS > 0 ? borderS : FROM_THE_FIRST_S;
}

/** What comes before the border. */
export function coarseBins(history: History, borderS: number): TimeBin[] {
  return borderS > 0 ? coarser(history.bins(FROM_THE_FIRST_S, borderS)) : [];
}

/** On the whole multiples of the width, so that the same readings always come together. */
function coarser(bins: readonly TimeBin[]): TimeBin[] {
  const found: TimeBin[] = [];
  let group: TimeBin[] = [];
  let key = NaN;
  for (const bin of bins) {
    // The last second of a bin of (k − 1, k] belongs to it.
    const own = Math.ceil(bin.elapsedS / COARSE_S);
    if (own !== key && group.length > 0) {
      found.push(together(group));
      group = [];
    }
    key = own;
    group.push(bin);
  }
  if (group.length > 0) found.push(together(group));
  return found;
}

function together(group: readonly TimeBin[]): TimeBin {
  const [only] = group;
  if (group.length === 1 && only) return only;
  let [elapsedS, pressurePa, measured, count, overRange] = [0, 0, 0, 0, 0];
  for (const bin of group) {
    elapsedS += bin.elapsedS / group.length;
    count += bin.count;
    overRange += bin.overRange;
    if (bin.pressurePa === null) continue;
    pressurePa += bin.pressurePa;
    measured += 1;
  }
  return {
    elapsedS,
    pressurePa: measured === 0 ? null : pressurePa / measured,
    count,
    overRange,
    temperatureC: group.at(-1)?.temperatureC ?? null,
  };
}
