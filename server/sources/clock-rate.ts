/**
 * How fast a sensor's clock runs beside that of this computer, from when its readings arrive.
 *
 * A reading arrives late, never early: of each minute the least delay tells, and how it changes from
 * minute to minute is the difference of the clocks. Crystals agree within 0.01 %, which nobody minds; a
 * cheap oscillator may be off by per cents, and so would be every leak rate.
 */
import { median } from 'simple-statistics';

export interface ClockRate {
  /** Seconds of this computer per second of the sensor. */
  readonly rate: number;
  /** Standard deviation of `rate`. */
  readonly sigma: number;
}

interface Least {
  readonly uptimeS: number;
  readonly delayS: number;
}

/** Of the sensor's time, to begin with; it doubles as often as there are too many of them. */
const BUCKET_S = 60;
const MOST_BUCKETS = 64;
/** Fewer say nothing. */
const LEAST_BUCKETS = 6;
/** The least delays scatter by at least so much: a few packets sent again, s. A setting of ours. */
const SCATTER_S = 0.05;
/** The computer has slept where the sensor's clock went ahead at once by this, s, and by this part of the pause. */
const SLEPT_S = 1;
const SLEPT_SHARE = 0.1;
/** No clock is off by more; what looks like it is something else. */
const MOST_OFF = 0.1;

export class ClockWatch {
  #bucketS = BUCKET_S;
  #least: Least[] = [];
  #present: Least | null = null;
  #before: Least | null = null;

  /**
   * @param uptimeS on the sensor's clock, without a break
   * @returns the rate, once in each bucket; null meanwhile, and while nothing can be said
   */
  heard(uptimeS: number, arrivedS: number): ClockRate | null {
    const now = { uptimeS, delayS: arrivedS - uptimeS };
    const before = this.#before;
    this.#before = now;
    if (before !== null && hasSlept(before, now)) this.#forget();
    const present = this.#present;
    if (present === null) {
      this.#present = now;
      return null;
    }
    if (this.#bucketOf(uptimeS) === this.#bucketOf(present.uptimeS)) {
      if (now.delayS < present.delayS) this.#present = now;
      return null;
    }
    this.#least.push(present);
    this.#present = now;
    this.#thin();
    return rateOf(this.#least);
  }

  #bucketOf(uptimeS: number): number {
    return Math.floor(uptimeS / this.#bucketS);
  }

  #thin(): void {
    if (this.#least.length <= MOST_BUCKETS) return;
    this.#bucketS *= 2;
    const thinned: Least[] = [];
    for (const least of this.#least) {
      const last = thinned.at(-1);
      if (!last || this.#bucketOf(last.uptimeS) !== this.#bucketOf(least.uptimeS))
        thinned.push(least);
      else if (least.delayS < last.delayS) thinned[thinned.length - 1] = least;
    }
    this.#least = thinned;
  }

  #forget(): void {
    this.#least = [];
    this.#present = null;
  }
}

function hasSlept(before: Least, now: Least): boolean {
  const aheadS = before.delayS - now.delayS;
  return aheadS > Math.max(SLEPT_S, SLEPT_SHARE * (now.uptimeS - before.uptimeS));
}

/** The median of all slopes between two of them (Theil and Sen): a busy minute bends it little. */
function rateOf(least: readonly Least[]): ClockRate | null {
  if (least.length < LEAST_BUCKETS) return null;
  const slopes = least.flatMap((one, i) =>
    least.slice(i + 1).map((other) => (other.delayS - one.delayS) / (other.uptimeS - one.uptimeS)),
  );
  const slope = median(slopes);
  if (Math.abs(slope) > MOST_OFF) return null;
  const offsets = least.map(({ uptimeS, delayS }) => delayS - slope * uptimeS);
  const middle = median(offsets);
  const scatterS = Math.max(
    1.4826 * median(offsets.map((off) => Math.abs(off - middle))),
    SCATTER_S,
  );
  const meanS = least.reduce((sum, { uptimeS }) => sum + uptimeS, 0) / least.length;
  const spread = least.reduce((sum, { uptimeS }) => sum + (uptimeS - meanS) ** 2, 0);
  return { rate: 1 + slope, sigma: scatterS / Math.sqrt(spread) };
}
