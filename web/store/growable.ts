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

  /** @throws RangeError outside the column. */
  set(row: number, value: number): void {
    if (!(row >= 0 && row < this.#length)) throw new RangeError(`row ${row} of ${this.#length}`);
    this.#values[row] = value;
  }

  /** So many more rows at the end, of no value yet. */
  extend(count: number): void {
    const length = this.#length + count;
    if (length > this.#values.length) {
      const larger = new Float64Array(Math.max(length, this.#values.length * 2));
      larger.set(this.#values.subarray(0, this.#length));
      this.#values = larger;
    }
    this.#length = length;
  }

  /** Copies the rows from `from` to before `end` so many rows further on, in one move of memory. */
  move(from: number, end: number, by: number): void {
    this.#values.copyWithin(from + by, from, end);
  }
}
