/**
 * The readings of a stretch of time, thinned for drawing: a bounded number of points whatever the
 * length, with each slice's lowest and highest kept, so that no spike is lost.
 *
 * A gap is a `null`, since the chart draws across anything else. Where readings are thinned, a gap
 * that is shorter than a slice is narrower than what can be drawn and is passed over.
 */
import type { ChannelReadings } from './channel-readings.ts';
import { isGap, usualIntervalOf } from './is-gap.ts';

export interface DrawnSeries {
  readonly elapsedS: readonly number[];
  readonly pressurePa: readonly (number | null)[];
}

/** Slices; each gives at most two points and a null on either side of a gap. */
const SLICES = 1000;

export function thinReadings(readings: ChannelReadings, fromS: number, toS: number): DrawnSeries {
  // One reading beyond either edge, so that the line runs into it.
  const first = Math.max(0, readings.rowFrom(fromS) - 1);
  const end = Math.min(readings.length, readings.rowFrom(toS) + 1);
  const drawing = new Drawing();
  const usualS = usualIntervalOf(readings);
  const thin = end - first > 2 * SLICES;
  const sliceS = thin ? (toS - fromS) / SLICES : 0;
  let slice = Number.NEGATIVE_INFINITY;
  for (let row = first; row < end; row += 1) {
    const elapsedS = readings.elapsedS(row);
    const broken =
      row > first &&
      isGap(readings, row, usualS) &&
      elapsedS - readings.elapsedS(row - 1) >= sliceS;
    const own = thin ? Math.floor((elapsedS - fromS) / sliceS) : row;
    if (broken || own !== slice) drawing.closeSlice();
    if (broken) drawing.gap((elapsedS + readings.elapsedS(row - 1)) / 2);
    slice = own;
    drawing.add(elapsedS, readings.pressurePa(row));
  }
  drawing.closeSlice();
  return drawing;
}

interface Point {
  readonly elapsedS: number;
  readonly pressurePa: number;
}

class Drawing implements DrawnSeries {
  readonly elapsedS: number[] = [];
  readonly pressurePa: (number | null)[] = [];
  #lowest: Point | null = null;
  #highest: Point | null = null;

  add(elapsedS: number, pressurePa: number): void {
    // Nothing measured (over range, fault), or not drawable on a log axis: a gap of its own.
    if (!(pressurePa > 0)) {
      this.closeSlice();
      this.gap(elapsedS);
      return;
    }
    const point = { elapsedS, pressurePa };
    if (this.#lowest === null || pressurePa < this.#lowest.pressurePa) this.#lowest = point;
    if (this.#highest === null || pressurePa > this.#highest.pressurePa) this.#highest = point;
  }

  gap(elapsedS: number): void {
    if (this.pressurePa.length === 0 || this.pressurePa.at(-1) === null) return;
    this.elapsedS.push(elapsedS);
    this.pressurePa.push(null);
  }

  closeSlice(): void {
    if (this.#lowest === null || this.#highest === null) return;
    const [a, b] =
      this.#lowest.elapsedS <= this.#highest.elapsedS
        ? [this.#lowest, this.#highest]
        : [this.#highest, this.#lowest];
    this.#push(a);
    if (b !== a) this.#push(b);
    this.#lowest = null;
    this.#highest = null;
  }

  #push(point: Point): void {
    this.elapsedS.push(point.elapsedS);
    this.pressurePa.push(point.pressurePa);
  }
}
