/** Random numbers that are the same for the same seed, on every machine. */

/** The generator sfc32 (Chris Doty-Humphrey, PractRand), seeded by a single number. */
export class SeededRandom {
  readonly #state: Uint32Array;
  #spare: number | null = null;

  /** @param seed 0 to 2³² − 1 */
  constructor(seed: number) {
    this.#state = Uint32Array.of(0, 0, seed, 1);
    // Its author lets the first dozen pass, so that near seeds part company.
    for (let round = 0; round < 12; round += 1) this.#next();
  }

  /** Evenly spread over [0, 1). */
  uniform(): number {
    return this.#next() / 2 ** 32;
  }

  /** Normally distributed with mean 0 and standard deviation 1 (Marsaglia's polar method). */
  normal(): number {
    if (this.#spare !== null) {
      const spare = this.#spare;
      this.#spare = null;
      return spare;
    }
    for (;;) {
      const x = 2 * this.uniform() - 1;
      const y = 2 * this.uniform() - 1;
      const square = x * x + y * y;
      if (square > 0 && square < 1) {
        const scale = Math.sqrt((-2 * Math.log(square)) / square);
        this.#spare = y * scale;
        return x * scale;
      }
    }
  }

  #next(): number {
    const [a = 0, b = 0, c = 0, counter = 0] = this.#state;
    const result = (a + b + counter) >>> 0;
    this.#state.set([b ^ (b >>> 9), c + (c << 3), ((c << 21) | (c >>> 11)) + result, counter + 1]);
    return result;
  }
}
