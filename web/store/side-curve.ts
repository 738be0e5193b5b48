/** The curve of a sensor that is not watched, thinned as it comes: drawing it costs the same all day. */
import type { Reading } from '../../protocol/reading.ts';
import { GapFinder } from '../analysis/gap-finder.ts';
import { type CurvePlace, ThinnedCurve } from '../figure/thinned-curve.ts';
import type { TimeRange } from '../figure/time-range.ts';
import type { ChannelReadings } from './channel-readings.ts';

/** What a line may join. */
export type CurvePieces = readonly (readonly CurvePlace[])[];

/** It stands in the background: drawn anew no more often than this, ms. */
const DRAWN_EVERY_MS = 500;

export class SideCurve {
  readonly #curve = new ThinnedCurve();
  readonly #gaps = new GapFinder();
  #drawn: {
    readonly range: TimeRange;
    readonly atMs: number;
    readonly pieces: CurvePieces;
  } | null = null;

  /** @param readings what came before anybody asked for it */
  constructor(readings: ChannelReadings) {
    for (let row = 0; row < readings.length; row += 1) this.insert([readings.reading(row)]);
  }

  insert(readings: readonly Reading[]): void {
    for (const reading of readings) {
      this.#curve.insert(reading);
      this.#gaps.insert(reading);
    }
  }

  /** @param nowMs any clock that goes forward, ms */
  pieces(range: TimeRange, nowMs: number): CurvePieces {
    const drawn = this.#drawn;
    const isRecent = drawn !== null && nowMs - drawn.atMs < DRAWN_EVERY_MS;
    if (isRecent && isNear(drawn.range, range)) return drawn.pieces;
    const { pieces } = this.#curve.drawn(range, this.#gaps.gaps());
    this.#drawn = { range, atMs: nowMs, pieces };
    return pieces;
  }
}

/** The axis grows as time goes on; a zoom by hand is a step that nobody would wait for. */
function isNear(a: TimeRange, b: TimeRange): boolean {
  const nearS = (b.toS - b.fromS) * 0.02;
  return Math.abs(a.fromS - b.fromS) <= nearS && Math.abs(a.toS - b.toS) <= nearS;
}
