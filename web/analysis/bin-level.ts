/** One layer of time bins of equal width: what `History` folds readings into. */

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
/** Bins per block of storage: small enough that a lone reading costs little, 256 · 56 B = 14 kB. */
const BLOCK_BINS = 256;

interface Block {
  readonly count: Uint32Array;
  readonly overRange: Uint32Array;
  readonly pressureSum: Float64Array;
  readonly pressureMin: Float64Array;
  readonly pressureMax: Float64Array;
  readonly timeSum: Float64Array;
  readonly temperatureSum: Float64Array;
  readonly temperatures: Uint32Array;
}

export class BinLevel {
  /** Width of a bin, s. Bin k holds the readings of ((k − 1)·width, k·width]. */
  readonly widthS: number;
  readonly #blocks = new Map<number, Block>();
  /** Block numbers in ascending order, to step over long silences. */
  readonly #order: number[] = [];

  constructor(widthS: number) {
    this.widthS = widthS;
  }

  /** O(1), apart from the first reading of a block. A null pressure is an over-range reading. */
  insert(elapsedS: number, pressurePa: number | null, temperatureC: number | null): void {
    const key = Math.ceil(elapsedS / this.widthS);
    const block = this.#blockFor(Math.floor(key / BLOCK_BINS));
    const slot = key - Math.floor(key / BLOCK_BINS) * BLOCK_BINS;
    const offsetMs = Math.round((elapsedS - (key - 1) * this.widthS) / QUANTUM_S);
    add(block.timeSum, slot, offsetMs);
    if (temperatureC !== null && Number.isFinite(temperatureC)) {
      add(block.temperatureSum, slot, Math.round(temperatureC / QUANTUM_K));
      add(block.temperatures, slot, 1);
    }
    if (pressurePa === null) {
      add(block.overRange, slot, 1);
      return;
    }
    const quanta = Math.round(pressurePa / QUANTUM_PA);
    const first = (block.count[slot] ?? 0) === 0;
    block.pressureMin[slot] = first ? quanta : Math.min(block.pressureMin[slot] ?? 0, quanta);
    block.pressureMax[slot] = first ? quanta : Math.max(block.pressureMax[slot] ?? 0, quanta);
    add(block.pressureSum, slot, quanta);
    add(block.count, slot, 1);
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
    const blockNumber = Math.floor(key / BLOCK_BINS);
    if (this.#blocks.has(blockNumber)) return startS;
    const next = this.#order[firstAtLeast(this.#order, blockNumber)];
    return next === undefined ? Infinity : (next * BLOCK_BINS - 1) * this.widthS;
  }

  #read(block: Block, slot: number, startS: number): TimeBin | null {
    const count = block.count[slot] ?? 0;
    const overRange = block.overRange[slot] ?? 0;
    if (count + overRange === 0) return null;
    const temperatures = block.temperatures[slot] ?? 0;
    const offsetS = ((block.timeSum[slot] ?? 0) / (count + overRange)) * QUANTUM_S;
    return {
      elapsedS: startS + offsetS,
      pressurePa: count === 0 ? null : robustMean(block, slot, count) * QUANTUM_PA,
      count,
      overRange,
      temperatureC:
        temperatures === 0 ? null : ((block.temperatureSum[slot] ?? 0) / temperatures) * QUANTUM_K,
    };
  }

  #blockFor(blockNumber: number): Block {
    const known = this.#blocks.get(blockNumber);
    if (known) return known;
    const block: Block = {
      count: new Uint32Array(BLOCK_BINS),
      overRange: new Uint32Array(BLOCK_BINS),
      pressureSum: new Float64Array(BLOCK_BINS),
      pressureMin: new Float64Array(BLOCK_BINS),
      pressureMax: new Float64Array(BLOCK_BINS),
      timeSum: new Float64Array(BLOCK_BINS),
      temperatureSum: new Float64Array(BLOCK_BINS),
      temperatures: new Uint32Array(BLOCK_BINS),
    };
    this.#blocks.set(blockNumber, block);
    this.#order.splice(firstAtLeast(this.#order, blockNumber), 0, blockNumber);
    return block;
  }
}

/** The mean without the smallest and the largest: one spike in a bin then moves nothing. */
function robustMean(block: Block, slot: number, count: number): number {
  const sum = block.pressureSum[slot] ?? 0;
  if (count < 3) return sum / count;
  return (sum - (block.pressureMin[slot] ?? 0) - (block.pressureMax[slot] ?? 0)) / (count - 2);
}

function add(values: Uint32Array | Float64Array, slot: number, amount: number): void {
  values[slot] = (values[slot] ?? 0) + amount;
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
