/** A rise that began too gently for a bend to show, once it has gone on for long. */
import { bendIn, type Bend } from './bend.ts';
import type { Trace } from './trace.ts';

/** Looked at so often, in means over so long. */
const EVERY_S = 30;
const MEAN_S = 60;
/**
 * By so much above the lowest mean, in ln P, and still rising by so much a second: four kelvin would
 * make a quarter of vapour (6.4 % each), and hardly last. A setting of ours.
 */
const LEAST_RISE = 0.3;
const LEAST_PER_S = 0.01 / 60;
const SLOPE_S = 180;
/** A third of it was there a mean ago: what jumps is not slow. */
const EARLIER_SHARE = 1 / 3;
/** The bend is looked for from so long before the lowest mean. */
const BEFORE_S = 300;

interface Risen {
  /** Where it began to, if there is one. */
  readonly bend: Bend | null;
  /** It has done nothing else since the first reading that was looked at. */
  readonly fromTheFirst: boolean;
}

export class SlowRise {
  readonly #trace: Trace;
  #from = 0;
  #dueS = 0;
  #lowest: { readonly atS: number; readonly log: number; readonly isFirst: boolean } | null = null;

  constructor(trace: Trace) {
    this.#trace = trace;
  }

  begin(from: number): void {
    this.#from = from;
    this.#dueS = 0;
    this.#lowest = null;
  }

  /** Goes on from where another one is, which stays there. */
  become(other: SlowRise): void {
    this.#from = other.#from;
    this.#dueS = other.#dueS;
    this.#lowest = other.#lowest;
  }

  /** @returns null where it has not risen */
  look(index: number): Risen | null {
    const trace = this.#trace;
    const nowS = trace.timeS(index);
    if (nowS < this.#dueS) return null;
    this.#dueS = nowS + EVERY_S;
    const from = Math.max(trace.firstAfter(nowS - MEAN_S), this.#from);
    if (index - from < 3) return null;
    const { mean } = trace.line(from, index + 1);
    if (this.#lowest === null || mean < this.#lowest.log) {
      this.#lowest = { atS: nowS - MEAN_S / 2, log: mean, isFirst: this.#lowest === null };
      return null;
    }
    if (mean < this.#lowest.log + LEAST_RISE) return null;
    const earlier = Math.max(trace.firstAfter(nowS - 2 * MEAN_S), this.#from);
    if (from - earlier < 3) return null;
    const before = trace.line(earlier, from).mean;
    if (before < this.#lowest.log + LEAST_RISE * EARLIER_SHARE) return null;
    const slopeFrom = Math.max(trace.firstAfter(nowS - SLOPE_S), this.#from);
    if (trace.line(slopeFrom, index + 1).perS < LEAST_PER_S) return null;
    const start = Math.max(trace.firstAfter(this.#lowest.atS - BEFORE_S), this.#from);
    const bend = bendIn(trace, start, index + 1, 1);
    // What has risen by then did not begin with the bend.
    const began = bend !== null && bend.log < this.#lowest.log + LEAST_RISE * EARLIER_SHARE;
    return { bend, fromTheFirst: this.#lowest.isFirst && !began };
  }
}
