/** Draws of the kinds that a generated job needs; the same seed gives the same ones. */
import { SeededRandom } from '../../physics/seeded-random.ts';

export class Chance {
  readonly #random: SeededRandom;

  /** @param seed 0 to 2³² − 1 */
  constructor(seed: number) {
    this.#random = new SeededRandom(seed);
  }

  /** Evenly spread. */
  between(low: number, high: number): number {
    return low + (high - low) * this.#random.uniform();
  }

  /** Evenly spread over the orders of magnitude: as many from 1 to 10 as from 10 to 100. */
  spread(low: number, high: number): number {
    return low * (high / low) ** this.#random.uniform();
  }

  /** Normally distributed, what lies outside the bounds put onto them. */
  near(middle: number, deviation: number, [low, high]: readonly [number, number]): number {
    return Math.min(high, Math.max(low, middle + deviation * this.#random.normal()));
  }

  happens(share: number): boolean {
    return this.#random.uniform() < share;
  }

  /** Whole numbers, both ends among them. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.#random.uniform());
  }

  oneOf<T>(items: readonly [T, ...T[]]): T {
    return items[this.whole(0, items.length - 1)] ?? items[0];
  }

  /** As often as its weight says, over the sum of all. */
  weighted<T>(items: readonly [Weighted<T>, ...Weighted<T>[]]): T {
    let left = this.between(
      0,
      items.reduce((sum, [, weight]) => sum + weight, 0),
    );
    for (const [item, weight] of items) {
      left -= weight;
      if (left < 0) return item;
    }
    return items[0][0];
  }
}

export type Weighted<T> = readonly [item: T, weight: number];
