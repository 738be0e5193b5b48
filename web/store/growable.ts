/** A column of numbers that grows by doubling: no garbage per reading, and a plain typed array inside. */
export class Growable {
  #values: Float64Array;
  #length = 0;

  constructor(capacity = 1024) {
    this.#values = new Float64Array(capacity);
  }

  get length(): number {
    return this.#length;
  }

  /** @throws RangeError outside the column. */
  at(row: number): number {
    const value = row < this.#length ? this.#values[row] : undefined;
    if (value === undefined) throw new RangeError(`row ${row} of ${this.#length}`);
    return value;
  }

  push(value: number): void {
    if (this.#length === this.#values.length) {
      const larger = new Float64Array(this.#values.length * 2);
      larger.set(this.#values);
      this.#values = larger;
    }
    this.#values[this.#length] = value;
    this.#length += 1;
  }

  /** Keeps the first rows only. */
  cut(length: number): void {
    this.#length = Math.min(this.#length, length);
  }
}
