/** Whole numbers in as few bytes as the largest of them needs: what is kept of a session for hours. */

type Store = Int8Array | Int16Array | Int32Array | Float64Array;

/** The largest that each kind of store holds exactly; the last one up to 2^53. */
const LARGEST = [2 ** 7 - 1, 2 ** 15 - 1, 2 ** 31 - 1] as const;

/** So many numbers, all of them 0 at first. They may be negative, and are exact up to 2^53. */
export class NarrowColumn {
  readonly #length: number;
  /** None as long as all of them are 0. */
  #values: Store | null = null;
  /** What fits into it as it is. */
  #largest = 0;

  constructor(length: number) {
    this.#length = length;
  }

  /** Bytes that the numbers take, without what the engine itself keeps of an array. */
  get bytes(): number {
    return this.#values?.byteLength ?? 0;
  }

  at(place: number): number {
    return this.#values === null ? 0 : (this.#values[place] ?? 0);
  }

  set(place: number, value: number): void {
    if (value > this.#largest || value < -this.#largest) this.#widenFor(Math.abs(value));
    if (this.#values !== null) this.#values[place] = value;
  }

  add(place: number, amount: number): void {
    this.set(place, this.at(place) + amount);
  }

  #widenFor(size: number): void {
    const kind = LARGEST.findIndex((largest) => size <= largest);
    const wider = storeOf(kind, this.#length);
    if (this.#values !== null) wider.set(this.#values);
    this.#values = wider;
    this.#largest = LARGEST[kind] ?? Infinity;
  }
}

function storeOf(kind: number, length: number): Store {
  if (kind === 0) return new Int8Array(length);
  if (kind === 1) return new Int16Array(length);
  return kind === 2 ? new Int32Array(length) : new Float64Array(length);
}
