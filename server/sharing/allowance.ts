/** How much of something each may have in a while: a bucket each, which fills up again steadily. */

interface Bucket {
  left: number;
  atMs: number;
}

/** Strangers can have many addresses; beyond so many of them the oldest are forgotten. */
const MOST_BUCKETS = 5000;

export class Allowance {
  readonly #most: number;
  readonly #perMs: number;
  readonly #clock: () => number;
  readonly #buckets = new Map<string, Bucket>();

  /** @param most at once; as many come back within `withinMs` */
  constructor(most: number, withinMs: number, clock: () => number) {
    this.#most = most;
    this.#perMs = most / withinMs;
    this.#clock = clock;
  }

  /** Takes it, where there is so much left. @returns whether there was */
  take(whose: string, cost = 1): boolean {
    const bucket = this.#bucketOf(whose);
    if (bucket.left < cost) return false;
    bucket.left -= cost;
    return true;
  }

  /** Whether anything is left, taking nothing. */
  hasLeft(whose: string): boolean {
    return this.#bucketOf(whose).left >= 1;
  }

  #bucketOf(whose: string): Bucket {
    const nowMs = this.#clock();
    const known = this.#buckets.get(whose);
    if (known !== undefined) {
      // A clock that was set back fills nothing.
      const passedMs = Math.max(0, nowMs - known.atMs);
      known.left = Math.min(this.#most, known.left + passedMs * this.#perMs);
      known.atMs = nowMs;
      return known;
    }
    const [oldest] = this.#buckets.keys();
    if (this.#buckets.size >= MOST_BUCKETS && oldest !== undefined) this.#buckets.delete(oldest);
    const bucket = { left: this.#most, atMs: nowMs };
    this.#buckets.set(whose, bucket);
    return bucket;
  }
}
