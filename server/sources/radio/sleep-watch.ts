/**
 * How long the computer has slept. On some systems the monotonic clock stands still meanwhile, and with it
 * the time axis of whoever is anchored by arrival; the wall's clock goes on.
 */
export class SleepWatch {
  readonly #wallMs: () => number;
  readonly #monotonicMs: () => number;
  #lastWallMs: number;
  #lastMonotonicMs: number;
  #sleptMs = 0;

  constructor(wallMs: () => number, monotonicMs: () => number) {
    this.#wallMs = wallMs;
    this.#monotonicMs = monotonicMs;
    this.#lastWallMs = wallMs();
    this.#lastMonotonicMs = monotonicMs();
  }

  /** All sleep so far, ms. Asked for often: a wall clock that drifts or is set by seconds is no sleep. */
  sleptMs(): number {
    const [wallMs, monotonicMs] = [this.#wallMs(), this.#monotonicMs()];
    const aheadMs = wallMs - this.#lastWallMs - (monotonicMs - this.#lastMonotonicMs);
    this.#lastWallMs = wallMs;
    this.#lastMonotonicMs = monotonicMs;
    if (aheadMs >= LEAST_MS && aheadMs <= MOST_MS) this.#sleptMs += aheadMs;
    return this.#sleptMs;
  }
}

/** Settings of ours: network time corrects by less, and a clock set by days was wrong before. */
const LEAST_MS = 10_000;
const MOST_MS = 24 * 3600 * 1000;
