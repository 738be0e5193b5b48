/**
 * Readings thinned for drawing as they come, in any order: a bounded number of slices of time whatever
 * the length, with each slice's lowest and highest kept, so that no spike is lost.
 */
import type { Reading } from '../../protocol/reading.ts';
import type { TimeRange } from './time-range.ts';

export interface CurvePlace {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

/** A measured curve as it is drawn. */
export interface DrawnCurve {
  /** What a line may join, each in order of time. Nothing may join one piece to the next. */
  readonly pieces: readonly (readonly CurvePlace[])[];
  /** Where the sensor said no more than 'above my range'. */
  readonly overRange: readonly TimeRange[];
  /** And where it said 'below my range', or zero. */
  readonly underRange: readonly TimeRange[];
  /** Where nothing was heard, for as long as can be drawn. */
  readonly gaps: readonly TimeRange[];
}

/** Slices kept: a day in slices of 6 s, a quarter of an hour in slices of 1/16 s. */
const MOST_SLICES = 16_384;
const FINEST_S = 1 / 16;
/** Slices drawn: two points each are as much as paper can show. */
const DRAWN = 700;

type Kind = 'measured' | 'over' | 'under' | 'nothing';

interface Slice {
  lowest: CurvePlace | null;
  highest: CurvePlace | null;
  over: TimeRange | null;
  under: TimeRange | null;
  /** A reading in it had no pressure at all. */
  nothing: boolean;
}

export class ThinnedCurve {
  #widthS = FINEST_S;
  #slices = new Map<number, Slice>();

  insert(reading: Reading): void {
    const { elapsedS } = reading;
    const slice = sliceIn(this.#slices, Math.floor(elapsedS / this.#widthS));
    add(slice, elapsedS, reading.pressurePa ?? 0, kindOf(reading));
    while (this.#slices.size > MOST_SLICES) this.#coarsen();
  }

  /** @param gaps in order of time; one that is narrower than a slice can't be drawn and is passed over */
  drawn(range: TimeRange, gaps: readonly TimeRange[]): DrawnCurve {
    const widthS = Math.max((range.toS - range.fromS) / DRAWN, this.#widthS);
    const drawing = new Drawing(gaps.filter(({ fromS, toS }) => toS - fromS >= widthS));
    for (const [, slice] of [...this.#within(range, widthS)].sort(([a], [b]) => a - b)) {
      drawing.add(slice);
    }
    return drawing;
  }

  #within({ fromS, toS }: TimeRange, widthS: number): Map<number, Slice> {
    const merged = new Map<number, Slice>();
    for (const [key, slice] of this.#slices) {
      const atS = key * this.#widthS;
      if (atS < fromS - this.#widthS || atS > toS) continue;
      merge(sliceIn(merged, Math.floor((atS - fromS) / widthS)), slice);
    }
    return merged;
  }

  #coarsen(): void {
    const coarser = new Map<number, Slice>();
    for (const [key, slice] of this.#slices) merge(sliceIn(coarser, Math.floor(key / 2)), slice);
    this.#slices = coarser;
    this.#widthS *= 2;
  }
}

function kindOf({ condition, pressurePa }: Reading): Kind {
  if (condition === 'over_range') return 'over';
  if (condition === 'under_range' || pressurePa === 0) return 'under';
  return condition === 'fault' || pressurePa === null ? 'nothing' : 'measured';
}

function sliceIn(slices: Map<number, Slice>, key: number): Slice {
  const known = slices.get(key);
  if (known !== undefined) return known;
  const slice = { lowest: null, highest: null, over: null, under: null, nothing: false };
  slices.set(key, slice);
  return slice;
}

function add(slice: Slice, elapsedS: number, pressurePa: number, kind: Kind): void {
  const place = { elapsedS, pressurePa };
  const moment = { fromS: elapsedS, toS: elapsedS };
  switch (kind) {
    case 'measured':
      slice.lowest = extreme(slice.lowest, place, -1);
      slice.highest = extreme(slice.highest, place, 1);
      return;
    case 'over':
      slice.over = joined(slice.over, moment);
      return;
    case 'under':
      slice.under = joined(slice.under, moment);
      return;
    case 'nothing':
      slice.nothing = true;
      return;
  }
}

function merge(into: Slice, slice: Slice): void {
  into.lowest = extreme(into.lowest, slice.lowest, -1);
  into.highest = extreme(into.highest, slice.highest, 1);
  into.over = joined(into.over, slice.over);
  into.under = joined(into.under, slice.under);
  into.nothing ||= slice.nothing;
}

/** The higher one for `way` 1, the lower one for −1; of equals the earlier, whatever came first. */
function extreme(a: CurvePlace | null, b: CurvePlace | null, way: 1 | -1): CurvePlace | null {
  if (a === null || b === null) return a ?? b;
  const difference = (a.pressurePa - b.pressurePa) * way;
  return difference > 0 || (difference === 0 && a.elapsedS <= b.elapsedS) ? a : b;
}

function joined(a: TimeRange | null, b: TimeRange | null): TimeRange | null {
  if (a === null || b === null) return a ?? b;
  return { fromS: Math.min(a.fromS, b.fromS), toS: Math.max(a.toS, b.toS) };
}

class Drawing implements DrawnCurve {
  readonly pieces: CurvePlace[][] = [];
  readonly overRange: TimeRange[] = [];
  readonly underRange: TimeRange[] = [];
  readonly gaps: readonly TimeRange[];
  #nextGap = 0;
  #lastS = Number.NEGATIVE_INFINITY;
  /** What the last slice showed: only like joins on to like. */
  #last: Kind = 'nothing';

  constructor(gaps: readonly TimeRange[]) {
    this.gaps = gaps;
  }

  add({ lowest, highest, over, under, nothing }: Slice): void {
    if (over !== null) this.#extend(this.overRange, 'over', over);
    if (under !== null) this.#extend(this.underRange, 'under', under);
    if (nothing) this.#last = 'nothing';
    if (lowest === null || highest === null) return;
    const places = lowest.elapsedS <= highest.elapsedS ? [lowest, highest] : [highest, lowest];
    const distinct = lowest === highest ? [lowest] : places;
    const first = distinct[0] ?? lowest;
    const piece = this.pieces.at(-1);
    if (piece !== undefined && this.#joins('measured', first.elapsedS)) piece.push(...distinct);
    else this.pieces.push(distinct);
    this.#lastS = Math.max(lowest.elapsedS, highest.elapsedS);
    // A line must not run on from a slice in which something else was seen as well.
    this.#last = over === null && under === null && !nothing ? 'measured' : 'nothing';
  }

  #extend(ranges: TimeRange[], kind: Kind, range: TimeRange): void {
    const known = ranges.at(-1);
    if (known !== undefined && this.#joins(kind, range.fromS)) {
      ranges[ranges.length - 1] = { fromS: known.fromS, toS: range.toS };
    } else ranges.push(range);
    this.#lastS = range.toS;
    this.#last = kind;
  }

  #joins(kind: Kind, elapsedS: number): boolean {
    let gap = this.gaps[this.#nextGap];
    let broken = false;
    while (gap !== undefined && gap.toS <= elapsedS) {
      broken ||= gap.fromS >= this.#lastS;
      this.#nextGap += 1;
      gap = this.gaps[this.#nextGap];
    }
    return this.#last === kind && !broken;
  }
}
