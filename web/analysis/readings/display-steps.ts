/** The steps of a display on which readings sit. */
import type { Series } from './series.ts';

/** Those of a stretch, or of a converter. */
export interface Steps {
  /** They hold so long, data time, s. */
  readonly untilS: number;
  /** Pa; 0 where none shows. */
  readonly stepPa: number;
  /** How long the reading stays within one, s. */
  readonly dwellS: number;
}

/** Readings that repeat so often sit on the steps of a display. */
const STICKING_SHARE = 0.2;
/** The step of a reading that never moved, as a share of it: ten micron of 500. A setting of ours. */
const UNSEEN_STEP_SHARE = 0.02;

/** How many samples tell together how coarse the display is: it may be coarser further up. */
const BLOCK = 40;

/** The steps of a display on which the readings sit for longer than from one to the next. */
export function displaySteps({ elapsedS, pressurePa }: Series): Steps[] {
  const found: Steps[] = [];
  const count = elapsedS.length;
  for (let from = 0; from < count; from += BLOCK) {
    const short = count - from < 2 * BLOCK;
    const to = short ? count : from + BLOCK;
    const { stepPa, dwellS } = stepOf(elapsedS.subarray(from, to), pressurePa.subarray(from, to));
    found.push({ untilS: short ? Infinity : (elapsedS[to - 1] ?? 0), stepPa, dwellS });
    if (short) break;
  }
  return found;
}

function stepOf(
  elapsedS: Float64Array,
  pressurePa: Float64Array,
): { stepPa: number; dwellS: number } {
  const count = pressurePa.length;
  const levels: number[] = [];
  for (let i = 1; i < count; i += 1) {
    const herePa = pressurePa[i] ?? 0;
    if (Math.abs(herePa - (pressurePa[i - 1] ?? 0)) < 1e-4) levels.push(herePa);
  }
  if (levels.length < STICKING_SHARE * count) return { stepPa: 0, dwellS: 0 };
  const changes = count - levels.length;
  levels.sort((a, b) => a - b);
  let stepPa = Infinity;
  for (let i = 1; i < levels.length; i += 1) {
    const betweenPa = (levels[i] ?? 0) - (levels[i - 1] ?? 0);
    if (betweenPa > 2e-3) stepPa = Math.min(stepPa, betweenPa);
  }
  const lengthS = (elapsedS[count - 1] ?? 0) - (elapsedS[0] ?? 0);
  // A reading that never moves: its step is not known; common displays have one of a micron or ten.
  if (!Number.isFinite(stepPa)) stepPa = UNSEEN_STEP_SHARE * (levels[0] ?? 0);
  return { stepPa, dwellS: lengthS / changes };
}
