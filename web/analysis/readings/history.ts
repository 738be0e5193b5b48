/**
 * The readings of a recording, folded into time bins as they come.
 *
 * One reading costs the same at minute 1 and at hour 24, readings may come in any order, and what
 * `bins` gives back is bounded in number, so that judging doesn't grow with the session either.
 */
import type { Condition } from '../../../protocol/reading.ts';
import { BinLevel, type TimeBin } from './bin-level.ts';

/** The part of a reading that conclusions are drawn from. */
export interface HistoryPoint {
  readonly elapsedS: number;
  readonly pressurePa: number | null;
  readonly condition: Condition;
  readonly temperatureC: number | null;
}

/** Each layer is 16 times as coarse as the one before: 1 s, 16 s, 4 min, 68 min. */
const WIDTHS_S = [1, 16, 256, 4096] as const;
/** `bins` chooses the finest layer of which no more than this many are needed: 68 min of 1 s bins. */
const MOST_BINS = 4096;
/** A vacuum sensor that reports more than ten atmospheres says no more than 'over range'. */
const ABSURD_PA = 1e6;
/** Below what sensors of the trade resolve (1 micron = 0.13 Pa): stands for 'under range'. */
const UNDER_RANGE_PA = 0.1;
/** Beyond this whole seconds are no longer exact; no recording lasts so long. */
const LATEST_S = 2 ** 40;

export class History {
  readonly #levels = WIDTHS_S.map((widthS) => new BinLevel(widthS));
  #firstS: number | null = null;
  #lastS: number | null = null;
  #lateReadings = 0;

  /** Time of the earliest reading, s, or null while there is none. */
  get firstS(): number | null {
    return this.#firstS;
  }

  /** Time of the latest reading, s, or null while there is none. */
  get lastS(): number | null {
    return this.#lastS;
  }

  /**
   * How many readings came after a later one had. As long as it stays, what `bins` has for a stretch
   * that ended before `lastS` stays too.
   */
  get lateReadings(): number {
    return this.#lateReadings;
  }

  /** What the bins take, without what the engine itself keeps of an array; grows with the hours told of. */
  get bytes(): number {
    return this.#levels.reduce((sum, level) => sum + level.bytes, 0);
  }

  /** Folds one reading in. A reading without a pressure still shows that the sensor was heard. */
  insert(point: HistoryPoint): void {
    const { elapsedS } = point;
    if (!(elapsedS >= 0 && elapsedS <= LATEST_S)) return;
    const pressurePa = usablePressurePa(point);
    if (pressurePa === undefined) return;
    for (const level of this.#levels) level.insert(elapsedS, pressurePa, point.temperatureC);
    if (this.#lastS !== null && elapsedS < this.#lastS) this.#lateReadings += 1;
    if (this.#firstS === null || elapsedS < this.#firstS) this.#firstS = elapsedS;
    if (this.#lastS === null || elapsedS > this.#lastS) this.#lastS = elapsedS;
  }

  /**
   * The occupied bins that lie wholly after `fromS` and no later than `toS`, in order of time: 1 s
   * wide, or wider where the stretch is long. Readings after `toS` never show in them.
   */
  bins(fromS: number, toS: number): TimeBin[] {
    const found: TimeBin[] = [];
    // No later reading may have a say in how wide the bins are, so `lastS` has none.
    const endS = Math.floor(toS);
    const startS = this.startOf(fromS, endS);
    this.addBins(found, startS, endS, endS, this.layerFor(endS - startS));
    return found;
  }

  /** Where the first bin of a stretch may begin. */
  startOf(fromS: number, endS: number): number {
    const firstS = this.#firstS === null ? endS : Math.ceil(this.#firstS) - 1;
    return Math.ceil(Math.max(fromS, firstS));
  }

  /** Number of the widest bins in a stretch that is so long. */
  layerFor(lengthS: number): number {
    const index = WIDTHS_S.findIndex((widthS) => lengthS / widthS <= MOST_BINS);
    return index === -1 ? WIDTHS_S.length - 1 : index;
  }

  /** How wide these are, s. */
  widthS(layer: number): number {
    return WIDTHS_S[layer] ?? WIDTHS_S[0];
  }

  /**
   * A part of what `bins` gives back, added to a list: the bins of a stretch that ends at `endS` and has none
   * wider than `layer`, from `atS` on, as far as they end by `untilS`.
   * @returns where to go on from
   */
  addBins(into: TimeBin[], atS: number, untilS: number, endS: number, layer: number): number {
    let placeS = atS;
    while (placeS < untilS) {
      const level = this.#widestAt(placeS, endS, layer);
      const bin = level.binFrom(placeS);
      const afterS = placeS + level.widthS;
      const nextS = bin ? afterS : Math.max(afterS, this.#skipSilence(afterS));
      if (nextS > untilS) break;
      if (bin) into.push(bin);
      placeS = nextS;
    }
    return placeS;
  }

  /** The widest allowed bin that begins at `atS` and doesn't reach past `endS`. */
  #widestAt(atS: number, endS: number, coarsest: number): BinLevel {
    for (let index = coarsest; index > 0; index -= 1) {
      const level = this.#levels[index];
      if (level && atS % level.widthS === 0 && atS + level.widthS <= endS) return level;
    }
    const finest = this.#levels[0];
    if (!finest) throw new Error('a history has at least one layer');
    return finest;
  }

  #skipSilence(atS: number): number {
    return this.#levels[0]?.nextOccupiedS(atS) ?? atS;
  }
}

/** A pressure, null for 'over range', or undefined where the reading says nothing about pressure. */
function usablePressurePa({ pressurePa, condition }: HistoryPoint): number | null | undefined {
  switch (condition) {
    case 'ok':
    case 'warming_up':
      if (pressurePa === null || Number.isNaN(pressurePa)) return undefined;
      return pressurePa > ABSURD_PA ? null : Math.max(pressurePa, 0);
    case 'over_range':
      return null;
    case 'under_range':
      return UNDER_RANGE_PA;
    case 'fault':
      return undefined;
  }
}
