/** An estimate and its 90 % interval from many weighted normal distributions. */
import type { Estimate } from '../conclusions.ts';

const CELLS = 240;

/** Which shares of all weight an estimate stands for. */
export interface Quantiles {
  /** Below the lower end. */
  readonly lowTail: number;
  /** Below the estimate. */
  readonly middle: number;
  /** Above the upper end. */
  readonly highTail: number;
}

const NINETY_PERCENT: Quantiles = { lowTail: 0.05, middle: 0.5, highTail: 0.05 };

/** Counts normal distributions into equal cells, each as its three Gauss–Hermite nodes. */
export class EstimateCells {
  readonly #cells = new Float64Array(CELLS);
  readonly #from: number;
  readonly #width: number;
  #total = 0;

  /**
   * @param moments mean and deviation of each, every fourth pair from `offset` on; those with a share below `least` are left out
   * @param more by how much a mean may lie above any of those
   */
  constructor(
    moments: Float64Array,
    offset: number,
    shares: Float64Array,
    least: number,
    more = 0,
  ) {
    let low = Infinity;
    let high = -Infinity;
    for (let i = offset; i < moments.length; i += 4) {
      if ((shares[i >> 2] ?? 0) < least) continue;
      const reach = 2 * (moments[i + 1] ?? 0);
      low = Math.min(low, (moments[i] ?? 0) - reach);
      high = Math.max(high, (moments[i] ?? 0) + reach);
    }
    this.#from = low;
    this.#width = Math.max(high + more - low, 1e-9) / CELLS;
  }

  add(mean: number, sigma: number, weight: number): void {
    const away = Math.sqrt(3) * sigma;
    this.#put(mean, (weight * 2) / 3);
    this.#put(mean - away, weight / 6);
    this.#put(mean + away, weight / 6);
    this.#total += weight;
  }

  #put(value: number, weight: number): void {
    const cell = Math.min(Math.max(Math.floor((value - this.#from) / this.#width), 0), CELLS - 1);
    this.#cells[cell] = (this.#cells[cell] ?? 0) + weight;
  }

  estimate({ lowTail, middle, highTail }: Quantiles = NINETY_PERCENT): Estimate {
    const low = this.#quantile(lowTail);
    const high = this.#quantile(1 - highTail);
    return { estimate: Math.min(Math.max(this.#quantile(middle), low), high), low, high };
  }

  #quantile(share: number): number {
    let sum = 0;
    for (let cell = 0; cell < CELLS; cell += 1) {
      const weight = (this.#cells[cell] ?? 0) / this.#total;
      if (sum + weight >= share) {
        return this.#from + (cell + (share - sum) / weight) * this.#width;
      }
      sum += weight;
    }
    return this.#from + CELLS * this.#width;
  }
}
