/** One layer of time bins of equal width: what `History` folds readings into. */
import { NarrowColumn } from './narrow-column.ts';

/** What a bin holds. Pressures are in `QUANTUM_PA`, so that sums don't depend on the order. */
export interface TimeBin {
  /** Mean time of its readings, s. */
  readonly elapsedS: number;
  /** Robust mean of its in-range readings, Pa, or null where it has none. */
  readonly pressurePa: number | null;
  /** In-range readings in it. */
  readonly count: number;
  /** Readings in it that were over range. */
  readonly overRange: number;
  /** Mean of the temperatures that came with them, °C, or null where none did. */
  readonly temperatureC: number | null;
}

/**
 * Sums are kept as whole numbers of this: they then come out the same in any order, to the digit.
 * A day-long bin of 10 Hz readings at 1e6 Pa stays below 2^53: 1e6 / 1e-5 · 864 000 = 8.6e16 is
 * too much, but the widest bin is 4096 s: 1e11 · 40 960 = 4e15 < 9e15.
 */
const QUANTUM_PA = 1e-5;
/** Times within a bin are summed in whole milliseconds, for the same reason. */
const QUANTUM_S = 1e-3;
/** And temperatures in whole thousandths of a kelvin. */
const QUANTUM_K = 1e-3;
/**
 * Bins per block of storage. What is kept is what it takes: the whole second's sum, lowest and highest
 * make it the same to the digit whenever a reading comes late, at the moment of which a report judges.
 * Of pressures below 2 kPa at 10 Hz a bin takes 1 + 2 + 3 · 4 + 4 + 1 = 20 B, so an hour 72 kB, and a
 * lone reading 1024 · 20 B = 20 kB. More of them in a block would have one high pressure widen more.
 */
const BLOCK_BINS = 1024;
/** Silences are stepped over by groups of so many. */
const GROUP_BINS = 256;

class Block {
  readonly count = new NarrowColumn(BLOCK_BINS);
  readonly overRange = new NarrowColumn(BLOCK_BINS);
  readonly pressureSum = new NarrowColumn(BLOCK_BINS);
  readonly pressureMin = new NarrowColumn(BLOCK_BINS);
  readonly pressureMax = new NarrowColumn(BLOCK_BINS);
  readonly timeSum = new NarrowColumn(BLOCK_BINS);
  readonly temperatureSum = new NarrowColumn(BLOCK_BINS);
  readonly temperatures = new NarrowColumn(BLOCK_BINS);

  get bytes(): number {
    const columns = [
      ...[this.count, this.overRange, this.timeSum, this.temperatureSum, this.temperatures],
      ...[this.pressureSum, this.pressureMin, this.pressureMax],
    ];
    return columns.reduce((sum, column) => sum + column.bytes, 0);
  }
}

export class BinLevel {
  /** Width of a bin, s. Bin k holds the readings of ((k − 1)·width, k·width]. */
  readonly widthS: number;
  readonly #blocks = new Map<number, Block>();
  /** Numbers of the groups that hold something, and in ascending order. */
  readonly #groups = new Set<number>();
  readonly #order: number[] = [];
  #latestGroup = -1;

  constructor(widthS: number) {
    this.widthS = widthS;
  }

  /** What its bins take, without what the engine itself keeps of an array. */
  get bytes(): number {
    let sum = 0;
    for (const block of this.#blocks.values()) sum += block.bytes;
    return sum;
  }

  /** O(1), apart from the first reading of a block. A null pressure is an over-range reading. */
  insert(elapsedS: number, pressurePa: number | null, temperatureC: number | null): void {
    const key = Math.ceil(elapsedS / this.widthS);
    const blockNumber = Math.floor(key / BLOCK_BINS);
    const block = this.#blockFor(blockNumber);
    const slot = key - blockNumber * BLOCK_BINS;
    const group = Math.floor(key / GROUP_BINS);
    if (group !== this.#latestGroup) this.#note(group);
    const offsetMs = Math.round((elapsedS - (key - 1) * this.widthS) / QUANTUM_S);
    block.timeSum.add(slot, offsetMs);
    if (temperatureC !== null && Number.isFinite(temperatureC)) {
      block.temperatureSum.add(slot, Math.round(temperatureC / QUANTUM_K));
      block.temperatures.add(slot, 1);
    }
    if (pressurePa === null) {
      block.overRange.add(slot, 1);
      return;
    }
    const quanta = Math.round(pressurePa / QUANTUM_PA);
    const first = block.count.at(slot) === 0;
    if (first || quanta < block.pressureMin.at(slot)) block.pressureMin.set(slot, quanta);
    if (first || quanta > block.pressureMax.at(slot)) block.pressureMax.set(slot, quanta);
    block.pressureSum.add(slot, quanta);
    block.count.add(slot, 1);
  }

  /** The bin that begins at `startS` (a whole multiple of the width), or null where it is empty. */
  binFrom(startS: number): TimeBin | null {
    const key = Math.round(startS / this.widthS) + 1;
    const blockNumber = Math.floor(key / BLOCK_BINS);
    const block = this.#blocks.get(blockNumber);
    return block ? this.#read(block, key - blockNumber * BLOCK_BINS, startS) : null;
  }

  /** The earliest time ≥ `startS` at which a bin may hold something; infinite where none does. */
  nextOccupiedS(startS: number): number {
    const key = Math.round(startS / this.widthS) + 1;
    const group = Math.floor(key / GROUP_BINS);
    if (this.#groups.has(group)) return startS;
    const next = this.#order[firstAtLeast(this.#order, group)];
    return next === undefined ? Infinity : (next * GROUP_BINS - 1) * this.widthS;
  }

  #note(group: number): void {
    this.#latestGroup = group;
    if (this.#groups.has(group)) return;
    this.#groups.add(group);
    this.#order.splice(firstAtLeast(this.#order, group), 0, group);
  }

  #read(block: Block, slot: number, startS: number): TimeBin | null {
    const count = block.count.at(slot);
    const overRange = block.overRange.at(slot);
    if (count + overRange === 0) return null;
    const temperatures = block.temperatures.at(slot);
    const offsetS = (block.timeSum.at(slot) / (count + overRange)) * QUANTUM_S;
    return {
      elapsedS: startS + offsetS,
      pressurePa: count === 0 ? null : robustMean(block, slot, count) * QUANTUM_PA,
      count,
      overRange,
      temperatureC:
        temperatures === 0 ? null : (block.temperatureSum.at(slot) / temperatures) * QUANTUM_K,
    };
  }

  #blockFor(blockNumber: number): Block {
    const known = this.#blocks.get(blockNumber);
    if (known) return known;
    const block = new Block();
    this.#blocks.set(blockNumber, block);
    return block;
  }
}

/** The mean without the smallest and the largest: one spike in a bin then moves nothing. */
function robustMean(block: Block, slot: number, count: number): number {
  const sum = block.pressureSum.at(slot);
  if (count < 3) return sum / count;
  return (sum - block.pressureMin.at(slot) - block.pressureMax.at(slot)) / (count - 2);
}

/** Position of the first number that is at least `value`, by halving. */
function firstAtLeast(ascending: readonly number[], value: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ascending[middle] ?? Infinity) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
