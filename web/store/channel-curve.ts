/**
 * The curve of one sensor, ready to be drawn at any scale: a pyramid of slices over its readings, each
 * four times as long as those below. A reading costs one step a level, wherever in time it belongs; a
 * drawing costs what the picture is wide, whatever the recording's length.
 *
 * Memory: 96 bytes a slice, a third more for the levels above the first: at most 11.1 MB a day of
 * readings (86 400 × 96 × 4/3), whatever their rate, and nothing for silences.
 */
import type { Reading } from '../../protocol/reading.ts';
import type { TimeRange } from '../figure/time-range.ts';
import type { ChannelReadings } from './channel-readings.ts';
import { CurveDrawing, type DrawnCurve, NOTHING_DRAWN } from './drawn-curve.ts';
import { GapNotes } from './gap-notes.ts';
import { PyramidLevel } from './pyramid-level.ts';
import { SEEN, Slice } from './slice.ts';

/**
 * Slices of the first level, s: ten readings at 10 Hz. Where a pixel is shorter, readings themselves
 * are drawn, and there are no more than so many seconds of them a pixel.
 */
const FINEST_S = 1;
/** How much longer the slices of each level are: a picture looks at no more than four a pixel. */
const FACTOR = 4;
/** The last level's slices are 4.5 hours long: three years are six thousand of them. */
const LEVELS = 8;
/** Slices drawn: as many as a chart is wide, CSS px, on a laptop. */
export const DRAWN_SLICES = 800;

export class ChannelCurve {
  readonly readings: ChannelReadings;
  /** The finest first. */
  readonly #levels = Array.from(
    { length: LEVELS },
    (_, level) => new PyramidLevel(FINEST_S * FACTOR ** level),
  );
  readonly #gaps: GapNotes;
  readonly #joined: boolean;
  readonly #one = new Slice();

  /** @param joined typed by hand, minutes apart: nothing can be missing between two */
  constructor(readings: ChannelReadings, joined = false) {
    this.readings = readings;
    this.#joined = joined;
    this.#gaps = new GapNotes(readings, (row, isAfterGap) => {
      const elapsedS = readings.elapsedS(row);
      for (const level of this.#levels) level.noteGap(elapsedS, isAfterGap);
    });
  }

  /** Bytes held beside the readings. */
  get bytes(): number {
    return this.#levels.reduce((sum, { bytes }) => sum + bytes, 0);
  }

  /** @param fresh what `readings.insert` found to be new, by data time */
  insert(fresh: readonly Reading[]): void {
    for (const reading of fresh) {
      const row = this.readings.rowOf(reading);
      if (!this.#joined) this.#gaps.noteNew(row);
      this.#readRow(row);
      for (const level of this.#levels) level.add(this.#one);
    }
  }

  /** With one reading beyond either edge, so that the line runs into it. */
  drawn(range: TimeRange, slices = DRAWN_SLICES): DrawnCurve {
    const { readings } = this;
    if (readings.length === 0) return NOTHING_DRAWN;
    const first = Math.max(0, readings.rowFrom(range.fromS) - 1);
    const last = Math.min(readings.length, readings.rowFrom(range.toS) + 1) - 1;
    if (last - first < 2 * slices) return this.#drawnRows(first, last);
    const widthS = this.#widthOf((range.toS - range.fromS) / slices);
    const drawing = new CurveDrawing(widthS);
    const slice = new Slice();
    let key = Number.NaN;
    this.#visit(first, last, widthS, (part) => {
      const own = Math.floor(part.firstS / widthS);
      if (own !== key && slice.seen !== 0) {
        drawing.add(slice);
        slice.clear();
      }
      key = own;
      slice.merge(part);
    });
    if (slice.seen !== 0) drawing.add(slice);
    return drawing;
  }

  /** All readings of a stretch in one, or null where there is none. */
  sliceOf(range: TimeRange): Slice | null {
    const { readings } = this;
    const first = readings.rowFrom(range.fromS);
    const last = readings.rowFrom(range.toS) - 1;
    if (last < first) return null;
    const slice = new Slice();
    // A quarter of the stretch may come along at either end: it is what a pixel shows.
    this.#visit(first, last, (range.toS - range.fromS) / FACTOR, (part) => slice.merge(part));
    return slice;
  }

  /** One reading; in an object that the next call uses again. */
  sliceAt(row: number): Slice {
    return this.#readRow(row);
  }

  #drawnRows(first: number, last: number): DrawnCurve {
    const drawing = new CurveDrawing(0);
    for (let row = first; row <= last; row += 1) drawing.add(this.#readRow(row));
    return drawing;
  }

  /** As a whole number of slices of some level, so that a picture that moves does not shimmer. */
  #widthOf(wantedS: number): number {
    const baseS = this.#levelFor(wantedS)?.widthS ?? wantedS;
    return Math.ceil(wantedS / baseS - 1e-9) * baseS;
  }

  #levelFor(widthS: number): PyramidLevel | undefined {
    return this.#levels.findLast((level) => level.widthS <= widthS);
  }

  #visit(first: number, last: number, widthS: number, see: (part: Slice) => void): void {
    const level = this.#levelFor(widthS);
    if (level !== undefined) {
      level.visit(this.readings.elapsedS(first), this.readings.elapsedS(last), see);
      return;
    }
    for (let row = first; row <= last; row += 1) see(this.#readRow(row));
  }

  #readRow(row: number): Slice {
    const { readings } = this;
    const pressurePa = readings.pressurePa(row);
    const late = !this.#joined && readings.cameLate(row) ? SEEN.late : 0;
    const seen = seenOf(readings, row, pressurePa) | late;
    this.#one.setReading(readings.elapsedS(row), pressurePa, seen, readings.isAfterGap(row));
    return this.#one;
  }
}

function seenOf(readings: ChannelReadings, row: number, pressurePa: number): number {
  const condition = readings.condition(row);
  if (condition === 'over_range') return SEEN.overRange;
  // Nothing at zero can stand on a log axis.
  if (condition === 'under_range' || pressurePa === 0) return SEEN.underRange;
  if (condition === 'fault' || Number.isNaN(pressurePa)) return SEEN.fault;
  return condition === 'warming_up' ? SEEN.measured | SEEN.warmingUp : SEEN.measured;
}
