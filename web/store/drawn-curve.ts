/** A measured curve as it is drawn: what a line may join, and the stretches that no line tells. */
import type { TimeRange } from '../figure/time-range.ts';
import { SEEN, type Slice, UNMEASURED } from './slice.ts';

/** A gap is a `null`, since a chart draws across anything else. */
export interface DrawnSeries {
  readonly elapsedS: readonly number[];
  readonly pressurePa: readonly (number | null)[];
}

/** What else is to be seen of a curve. */
export const STRETCH_KINDS = [
  'gap',
  'over_range',
  'under_range',
  'warming_up',
  'fault',
  'late',
] as const;
export type StretchKind = (typeof STRETCH_KINDS)[number];

export interface Stretch extends TimeRange {
  readonly kind: StretchKind;
}

export interface DrawnCurve extends DrawnSeries {
  readonly stretches: readonly Stretch[];
}

export const NOTHING_DRAWN: DrawnCurve = { elapsedS: [], pressurePa: [], stretches: [] };

const KINDS = [
  { kind: 'over_range', bit: SEEN.overRange },
  { kind: 'under_range', bit: SEEN.underRange },
  { kind: 'warming_up', bit: SEEN.warmingUp },
  { kind: 'fault', bit: SEEN.fault },
  { kind: 'late', bit: SEEN.late },
] as const;

/** Draws slices, given in order of time: entry, lowest, highest and exit of each, so no spike is lost. */
export class CurveDrawing implements DrawnCurve {
  readonly elapsedS: number[] = [];
  readonly pressurePa: (number | null)[] = [];
  readonly #stretches: { kind: StretchKind; fromS: number; toS: number }[] = [];
  /** The latest stretch of each kind, while it goes on. */
  readonly #going = new Map<StretchKind, { toS: number }>();
  readonly #narrowestS: number;
  #endS = Number.NaN;

  /** @param narrowestS a gap that is shorter can't be seen, and is passed over */
  constructor(narrowestS: number) {
    this.#narrowestS = narrowestS;
  }

  get stretches(): readonly Stretch[] {
    return this.#stretches;
  }

  add(slice: Slice): void {
    const isBroken = slice.afterGap && slice.firstS - this.#endS >= this.#narrowestS;
    if (isBroken) this.#addGap(this.#endS, slice.firstS);
    for (const { kind, bit } of KINDS) this.#extend(kind, (slice.seen & bit) !== 0, slice);
    if ((slice.seen & SEEN.measured) !== 0) this.#addMeasured(slice);
    // A line must not run on from where anything else was seen as well.
    if ((slice.seen & UNMEASURED) !== 0) this.#break(slice.lastS);
    this.#endS = slice.lastS;
  }

  #addGap(fromS: number, toS: number): void {
    this.#break((fromS + toS) / 2);
    this.#stretches.push({ kind: 'gap', fromS, toS });
    this.#going.clear();
  }

  #extend(kind: StretchKind, isSeen: boolean, { firstS, lastS }: Slice): void {
    const going = this.#going.get(kind);
    if (!isSeen) this.#going.delete(kind);
    else if (going !== undefined) going.toS = lastS;
    else {
      const stretch = { kind, fromS: firstS, toS: lastS };
      this.#stretches.push(stretch);
      this.#going.set(kind, stretch);
    }
  }

  #addMeasured({ entryS, entryPa, lowS, lowPa, highS, highPa, exitS, exitPa }: Slice): void {
    this.#push(entryS, entryPa);
    if (lowS <= highS) {
      this.#push(lowS, lowPa);
      this.#push(highS, highPa);
    } else {
      this.#push(highS, highPa);
      this.#push(lowS, lowPa);
    }
    this.#push(exitS, exitPa);
  }

  #push(elapsedS: number, pressurePa: number): void {
    const last = this.elapsedS.length - 1;
    if (this.elapsedS[last] === elapsedS && this.pressurePa[last] === pressurePa) return;
    this.elapsedS.push(elapsedS);
    this.pressurePa.push(pressurePa);
  }

  #break(elapsedS: number): void {
    if (this.pressurePa.length === 0 || this.pressurePa.at(-1) === null) return;
    this.elapsedS.push(elapsedS);
    this.pressurePa.push(null);
  }
}
