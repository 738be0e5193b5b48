/**
 * One level of the pyramid: slices of equal length, in blocks that are made where there are readings.
 * Nothing is kept for a silence, and a reading finds its slice by its time alone.
 */
import { Slice } from './slice.ts';

/** Numbers kept of a slice, and slices of a block. */
const FIELDS = 12;
const BLOCK_SLICES = 256;
/** Memory of a slice, bytes: twelve numbers of eight. */
const SLICE_BYTES = FIELDS * 8;

export class PyramidLevel {
  /** Length of a slice, s. */
  readonly widthS: number;
  readonly #blocks = new Map<number, Float64Array>();
  readonly #held = new Slice();

  constructor(widthS: number) {
    this.widthS = widthS;
  }

  /** Bytes held. */
  get bytes(): number {
    return this.#blocks.size * BLOCK_SLICES * SLICE_BYTES;
  }

  add(reading: Slice): void {
    const key = Math.floor(reading.firstS / this.widthS);
    const number = Math.floor(key / BLOCK_SLICES);
    let block = this.#blocks.get(number);
    if (block === undefined) {
      block = new Float64Array(BLOCK_SLICES * FIELDS);
      this.#blocks.set(number, block);
    }
    const at = (key - number * BLOCK_SLICES) * FIELDS;
    load(this.#held, block, at);
    this.#held.merge(reading);
    store(this.#held, block, at);
  }

  /** Of the reading at this time whether something is missing before it; kept where it is the first. */
  noteGap(elapsedS: number, isAfterGap: boolean): void {
    const key = Math.floor(elapsedS / this.widthS);
    const number = Math.floor(key / BLOCK_SLICES);
    const block = this.#blocks.get(number);
    if (block === undefined) return;
    const at = (key - number * BLOCK_SLICES) * FIELDS;
    load(this.#held, block, at);
    if (this.#held.seen === 0 || this.#held.firstS !== elapsedS) return;
    this.#held.afterGap = isAfterGap;
    store(this.#held, block, at);
  }

  /** Each slice with readings, in order of time, in one and the same object. */
  visit(fromS: number, toS: number, see: (slice: Slice) => void): void {
    const firstKey = Math.floor(fromS / this.widthS);
    const lastKey = Math.floor(toS / this.widthS);
    const lastBlock = Math.floor(lastKey / BLOCK_SLICES);
    for (let number = Math.floor(firstKey / BLOCK_SLICES); number <= lastBlock; number += 1) {
      const block = this.#blocks.get(number);
      if (block === undefined) continue;
      const beginning = number * BLOCK_SLICES;
      const end = Math.min(BLOCK_SLICES - 1, lastKey - beginning);
      for (let slice = Math.max(0, firstKey - beginning); slice <= end; slice += 1) {
        load(this.#held, block, slice * FIELDS);
        if (this.#held.seen !== 0) see(this.#held);
      }
    }
  }
}

function load(slice: Slice, block: Float64Array, at: number): void {
  slice.seen = block[at] ?? 0;
  if (slice.seen === 0) return;
  slice.afterGap = block[at + 1] === 1;
  slice.firstS = block[at + 2] ?? 0;
  slice.lastS = block[at + 3] ?? 0;
  slice.entryS = block[at + 4] ?? 0;
  slice.entryPa = block[at + 5] ?? 0;
  slice.lowS = block[at + 6] ?? 0;
  slice.lowPa = block[at + 7] ?? 0;
  slice.highS = block[at + 8] ?? 0;
  slice.highPa = block[at + 9] ?? 0;
  slice.exitS = block[at + 10] ?? 0;
  slice.exitPa = block[at + 11] ?? 0;
}

function store(slice: Slice, block: Float64Array, at: number): void {
  block[at] = slice.seen;
  block[at + 1] = slice.afterGap ? 1 : 0;
  block[at + 2] = slice.firstS;
  block[at + 3] = slice.lastS;
  block[at + 4] = slice.entryS;
  block[at + 5] = slice.entryPa;
  block[at + 6] = slice.lowS;
  block[at + 7] = slice.lowPa;
  block[at + 8] = slice.highS;
  block[at + 9] = slice.highPa;
  block[at + 10] = slice.exitS;
  block[at + 11] = slice.exitPa;
}
