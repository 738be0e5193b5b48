/** Looks for sharp bends as the curve goes on, over stretches from a quarter of a minute to five. */
import { bendIn, type Bend } from './bend.ts';
import type { Line, Trace } from './trace.ts';

/** Stretches after the bend that are tried; before it, twice as much is looked at. */
const SCALES_S = [12, 36, 108, 324] as const;
const BEFORE = 2;
/** Each is looked at again after this part of it, and after twice that where it showed nothing sharp. */
const AGAIN_SHARE = 1 / 8;
/** Fewer readings than this on either side are no slope. */
const LEAST_READINGS = 4;
/** A change of slope that has moved the curve by less, or by less than so many of its errors, is none. */
const LEAST_MOVED = 0.006;
const LEAST_SIGMAS = 4;

/**
 * What a change of slope is held against: those the other way, which are noise, whatever its memory,
 * steps of a display, bubbles. Those this way may be the curve's own. The latest are left out, since
 * the bend itself shows in them.
 */
const REMEMBERED = 24;
const LEFT_OUT = 8;
const LEAST_REMEMBERED = 6;
const TIMES_USUAL = 5;

interface Look {
  readonly scaleS: number;
  dueS: number;
  /** First reading of the stretch before, and of the one after; both only go forward. */
  before: number;
  after: number;
  /** The latest changes of slope at this scale, whatever made them: a ring. */
  readonly changes: Float64Array;
  changed: number;
}

export class BendWatch {
  readonly #trace: Trace;
  readonly #sign: 1 | -1;
  #looks: Look[] = [];
  /** The earliest moment at which one of them is due. */
  #dueS = 0;

  /** @param sign +1 to look for bends upward, −1 downward */
  constructor(trace: Trace, sign: 1 | -1) {
    this.#trace = trace;
    this.#sign = sign;
    this.begin(0);
  }

  /** Nothing before this reading counts. */
  begin(from: number): void {
    this.#dueS = 0;
    this.#looks = SCALES_S.map((scaleS) => ({
      scaleS,
      dueS: 0,
      before: from,
      after: from,
      changes: new Float64Array(REMEMBERED),
      changed: 0,
    }));
  }

  /** Goes on from where another one is, which stays there. */
  become(other: BendWatch): void {
    this.#dueS = other.#dueS;
    this.#looks = other.#looks.map((look) => ({ ...look, changes: look.changes.slice() }));
  }

  /** The first bend that shows in the readings up to this one and that pleases the caller, or null. */
  find<T>(index: number, judge: (bend: Bend) => T | null): T | null {
    const nowS = this.#trace.timeS(index);
    if (nowS < this.#dueS) return null;
    let found: T | null = null;
    this.#dueS = Infinity;
    for (const look of this.#looks) {
      if (found === null && nowS >= look.dueS) {
        const bend = this.#look(look, index);
        found = bend && judge(bend);
      }
      this.#dueS = Math.min(this.#dueS, look.dueS);
    }
    return found;
  }

  #look(look: Look, index: number): Bend | null {
    const trace = this.#trace;
    const nowS = trace.timeS(index);
    const { scaleS } = look;
    look.dueS = nowS + scaleS * AGAIN_SHARE;
    while (trace.timeS(look.after) <= nowS - scaleS && look.after < index) look.after += 1;
    const beforeS = nowS - scaleS * (1 + BEFORE);
    while (trace.timeS(look.before) <= beforeS && look.before < look.after) look.before += 1;
    if (index + 1 - look.after < LEAST_READINGS) return null;
    const after = trace.line(look.after, index + 1);
    if (look.after - look.before < LEAST_READINGS) return null;
    const fromS = trace.timeS(look.before);
    if (trace.timeS(look.after) - fromS < 0.75 * scaleS) return null;
    const before = trace.line(look.before, look.after);
    const change = this.#sign * (after.perS - before.perS);
    look.changes[look.changed % REMEMBERED] = change;
    look.changed += 1;
    if (!this.#isBent(before, after, scaleS, trace.scatter(index))) return null;
    if (change < TIMES_USUAL * usualChange(look)) return null;
    look.dueS = nowS + 2 * scaleS * AGAIN_SHARE;
    return bendIn(trace, look.before, index + 1, this.#sign);
  }

  #isBent(before: Line, after: Line, scaleS: number, scatter: number): boolean {
    const change = this.#sign * (after.perS - before.perS);
    if (this.#sign * after.perS < -0.1 * Math.abs(before.perS)) return false;
    if (change * scaleS < LEAST_MOVED) return false;
    const variance = (1 / after.spreadS2 + 1 / before.spreadS2) * Math.max(scatter, 5e-4) ** 2;
    return change * change > LEAST_SIGMAS * LEAST_SIGMAS * variance;
  }
}

/** As a standard deviation: half of all noise goes the other way. 0 while there are too few. */
function usualChange({ changes, changed }: Look): number {
  const known = Math.min(changed, REMEMBERED) - LEFT_OUT;
  if (known < LEAST_REMEMBERED) return 0;
  let squares = 0;
  for (let i = 0; i < known; i += 1) {
    squares += Math.min(changes[(changed - 1 - LEFT_OUT - i) % REMEMBERED] ?? 0, 0) ** 2;
  }
  return Math.sqrt((2 * squares) / known);
}
