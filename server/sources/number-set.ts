/** Which whole numbers have been seen, as stretches: a day without a loss is one of them. */

export interface Stretch {
  readonly from: number;
  /** Counts too. */
  readonly to: number;
}

/** A sensor that sends every second number makes a gap with each: no more are told apart. */
const MOST_STRETCHES = 400;

export class NumberSet {
  /** Ascending, none touching the next. */
  readonly #stretches: { from: number; to: number }[] = [];

  /** What is in it, ascending. */
  stretches(): Stretch[] {
    return this.#stretches.map((stretch) => ({ ...stretch }));
  }

  /** @returns false where it was in already */
  add(number: number): boolean {
    const last = this.#stretches.at(-1);
    if (last !== undefined && number === last.to + 1) {
      last.to = number;
      return true;
    }
    return this.addStretch({ from: number, to: number });
  }

  /** @returns false where all of it was in already */
  addStretch({ from, to }: Stretch): boolean {
    const first = this.#firstReaching(from - 1);
    let last = first;
    let [low, high] = [from, to];
    for (let at = this.#stretches[last]; at && at.from <= to + 1; at = this.#stretches[last]) {
      if (at.from <= from && to <= at.to) return false;
      low = Math.min(low, at.from);
      high = Math.max(high, at.to);
      last += 1;
    }
    this.#stretches.splice(first, last - first, { from: low, to: high });
    this.#forgetGaps();
    return true;
  }

  has(number: number): boolean {
    const at = this.#stretches[this.#firstReaching(number)];
    return at !== undefined && at.from <= number;
  }

  /** What is not in it between its lowest number and its highest, ascending. */
  gaps(): Stretch[] {
    return this.#stretches.slice(1).map((after, i) => ({
      from: (this.#stretches[i]?.to ?? after.from) + 1,
      to: after.from - 1,
    }));
  }

  /** Beyond so many, the oldest gap counts as seen: work and memory stay bounded. */
  #forgetGaps(): void {
    if (this.#stretches.length <= MOST_STRETCHES) return;
    const [oldest, next] = this.#stretches;
    if (oldest && next) this.#stretches.splice(0, 2, { from: oldest.from, to: next.to });
  }

  /** The first stretch that ends there or later, by halving; usually asked about the latest. */
  #firstReaching(number: number): number {
    let low = 0;
    let high = this.#stretches.length;
    if ((this.#stretches[high - 1]?.to ?? -Infinity) < number) return high;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.#stretches[middle]?.to ?? Infinity) < number) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
