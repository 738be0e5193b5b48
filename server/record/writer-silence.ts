/**
 * Whether the writer's thread answers. A disk that hangs refuses nothing: the thread stands in a call that does not
 * return, and can neither say so nor keep count of what waits for it.
 */

/** Its answers take milliseconds; whoever looks at the page should know of it soon. */
const STALLED_AFTER_MS = 5000;
/**
 * Readings that may wait for a thread that hears nothing: a message of some 430 bytes each, 300 MB; two hours of
 * eight sensors at 10 Hz. Beyond it they are refused, as where the disk refuses (waiting-facts.ts).
 */
const MOST_UNHEARD = 700_000;

export interface Stalled {
  /** Wall clock, ms: since when nothing was heard. */
  readonly sinceMs: number;
  readonly waiting: number;
  readonly refused: number;
}

interface Clocks {
  readonly wallMs: () => number;
  /** Stands still while the computer sleeps. */
  readonly steadyMs: () => number;
}

const CLOCKS: Clocks = { wallMs: () => Date.now(), steadyMs: () => performance.now() };

export class WriterSilence {
  readonly #clocks: Clocks;
  readonly #most: number;
  /** Null: it owes no answer. */
  #since: { readonly wallMs: number; readonly steadyMs: number } | null = null;
  /** Readings that are not known to be written. */
  #waiting = 0;
  #sinceHeard = 0;
  #refused = 0;

  constructor(clocks = CLOCKS, mostUnheard = MOST_UNHEARD) {
    this.#clocks = clocks;
    this.#most = mostUnheard;
  }

  /** @returns whether so many readings may be handed over, or a fact with none */
  mayHandOver(readings: number): boolean {
    if (readings > 0 && this.#sinceHeard + readings > this.#most) {
      this.#refused += readings;
      return false;
    }
    this.#since ??= this.#now();
    this.#waiting += readings;
    this.#sinceHeard += readings;
    return true;
  }

  /** It is there. @param readings that it is done with */
  heard(readings: number, isAllAnswered: boolean): void {
    this.#since = isAllAnswered ? null : this.#now();
    this.#waiting = isAllAnswered ? 0 : this.#waiting - readings;
    this.#sinceHeard = 0;
    if (isAllAnswered) this.#refused = 0;
  }

  /** @returns null where it answers, or has nothing to answer */
  stalled(): Stalled | null {
    if (this.#since === null) return null;
    const { wallMs, steadyMs } = this.#since;
    if (this.#clocks.steadyMs() - steadyMs < STALLED_AFTER_MS) return null;
    return { sinceMs: wallMs, waiting: this.#waiting, refused: this.#refused };
  }

  #now() {
    return { wallMs: this.#clocks.wallMs(), steadyMs: this.#clocks.steadyMs() };
  }
}
