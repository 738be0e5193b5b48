/** The stages of a recording that goes on: what has been read of it is kept until a late reading changes it. */
import type { Mark } from '../../../protocol/mark.ts';
import type { TimeBin } from '../readings/bin-level.ts';
import type { History } from '../readings/history.ts';
import { coarseBins, stageBins, stageBorderS } from './stage-bins.ts';
import { StageWalk } from './stage-walk.ts';
import { recogniseStages, stagesOf, type Stages } from './stages.ts';

interface Kept {
  readonly walk: StageWalk;
  readonly depthPa: number;
  readonly lateReadings: number;
  readonly borderS: number;
  /** All bins up to here are in the walk. */
  readonly toS: number;
  readonly latest: TimeBin | null;
}

/** The latest that was asked for, of each history. */
const latestWalks = new WeakMap<History, Kept>();

interface SoFar {
  readonly stages: Stages;
  /** The last second of which anything is known. */
  readonly latest: TimeBin | null;
}

/**
 * The same as `recogniseStages` of the history's `stageBins`.
 * @param marks up to `nowS`, in order of time
 */
export function stagesSoFar(
  history: History,
  marks: readonly Mark[],
  depthPa: number,
  nowS: number,
): SoFar {
  const borderS = stageBorderS(nowS);
  // A second that is over for all but late readings: they are counted.
  const toS = Math.min(Math.floor(nowS), Math.ceil(history.lastS ?? -Infinity) - 1);
  if (toS < borderS) {
    const bins = stageBins(history, nowS);
    return { stages: recogniseStages(bins, marks, depthPa, nowS), latest: bins.at(-1) ?? null };
  }
  const known = keptOf(history, marks, depthPa, borderS, toS);
  const walk = known?.walk ?? new StageWalk(depthPa);
  const fresh = history.bins(known?.toS ?? borderS, toS);
  const staying = known ? fresh : [...coarseBins(history, borderS), ...fresh];
  const later = history.bins(toS, nowS);
  const reader = walk.goOn(staying, later, marks);
  const latest = staying.at(-1) ?? known?.latest ?? null;
  const { lateReadings } = history;
  latestWalks.set(history, { walk, depthPa, lateReadings, borderS, toS, latest });
  return { stages: stagesOf(reader, walk.trace, marks, nowS), latest: later.at(-1) ?? latest };
}

/** Null where another walk has to be begun. */
function keptOf(
  history: History,
  marks: readonly Mark[],
  depthPa: number,
  borderS: number,
  toS: number,
): Kept | null {
  const kept = latestWalks.get(history);
  if (!kept) return null;
  const isSame =
    kept.depthPa === depthPa &&
    kept.lateReadings === history.lateReadings &&
    kept.borderS === borderS &&
    kept.toS <= toS;
  return isSame && kept.walk.isAlong(marks) ? kept : null;
}
