/** The latest readings of a sensor, in the bytes in which each was sent, or would have been. */
import { READING_FIELDS } from '../../protocol/profile.ts';
import { decode } from '../../protocol/profile-codec.ts';
import type { Selection } from '../../protocol/record-access.ts';

interface Kept {
  readonly boot: number;
  readonly sequence: number;
  readonly bytes: Uint8Array;
}

export class ReadingStore {
  readonly #depth: number;
  /** A ring: once it is full, `#next` is the oldest. */
  readonly #ring: Kept[] = [];
  #next = 0;

  /** @param depth how many readings it holds; the oldest is forgotten first */
  constructor(depth: number) {
    this.#depth = depth;
  }

  /** Bytes that are no reading have no number to be asked for by, and are not kept. */
  keep(bytes: Uint8Array): void {
    const decoded = decode(READING_FIELDS, bytes);
    if (!decoded.ok || this.#depth === 0) return;
    const { boot, sequence } = decoded.values;
    this.#ring[this.#next] = { boot, sequence, bytes };
    this.#next = (this.#next + 1) % this.#depth;
  }

  /** As where readings don't outlive a restart. */
  forget(): void {
    this.#ring.length = 0;
    this.#next = 0;
  }

  /** The selected readings, oldest first: of all boots with `all`, else of the present one alone. */
  select(selection: Selection, presentBoot: number): Uint8Array[] {
    const kept = [...this.#ring.slice(this.#next), ...this.#ring.slice(0, this.#next)];
    const present = kept.filter(({ boot }) => boot === presentBoot);
    const wanted = (within: (sequence: number) => boolean) =>
      present.filter(({ sequence }) => within(sequence));
    const selected = (): Kept[] => {
      switch (selection.operator) {
        case 'all':
          return kept;
        case 'first':
          return present.slice(0, 1);
        case 'last':
          return present.slice(-1);
        case 'from':
          return wanted((sequence) => sequence >= selection.from);
        case 'upTo':
          return wanted((sequence) => sequence <= selection.to);
        case 'within':
          return wanted((sequence) => sequence >= selection.from && sequence <= selection.to);
      }
    };
    return selected().map(({ bytes }) => bytes);
  }
}
