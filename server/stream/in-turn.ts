/**
 * What screens ask for, one thing at a time in the order in which it was asked, with room after each for what is live:
 * a chunk takes some milliseconds, and a thousand requests can come in one packet.
 */
export class InTurn {
  readonly #waiting: (() => void)[] = [];

  add(work: () => void): void {
    this.#waiting.push(work);
    if (this.#waiting.length === 1) setImmediate(() => this.#next());
  }

  /** @param work does not throw */
  #next(): void {
    this.#waiting[0]?.();
    this.#waiting.shift();
    if (this.#waiting.length > 0) setImmediate(() => this.#next());
  }
}
