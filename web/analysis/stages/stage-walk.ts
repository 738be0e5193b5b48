/**
 * Goes along the curve and the marks as they come. What came up to some moment and stays as it is is
 * read once; from there the rest, which may yet change, is read anew each time by a reader that is let
 * go again. The same to the digit as reading all of it: nothing looks back at what a reader has left.
 */
import type { Mark } from '../../../protocol/mark.ts';
import type { TimeBin } from '../readings/bin-level.ts';
import { StageReader } from './stage-reader.ts';
import { Trace } from './trace.ts';

/**
 * A reading is read for good once so many follow it that stay: whether it is a spike is told from the two
 * after it, and the first after a moment that is its own may be asked for as well.
 */
const FOLLOWED_BY = 4;

/** Where a reader is. */
interface Place {
  /** Number of the next reading in range, and of the next mark. */
  reading: number;
  mark: number;
}

export class StageWalk {
  readonly trace = new Trace([]);
  readonly #settled: StageReader;
  readonly #place: Place = { reading: 0, mark: 0 };
  /** Bins that stay and are not read for good yet; readings in range that stay. */
  #waiting: TimeBin[] = [];
  #staying = 0;
  /** The moment of the last bin that was read for good, and the marks up to there. */
  #readToS = -Infinity;
  #marks: readonly Mark[] = [];
  readonly #depthPa: number;

  /** @param depthPa an isolation is expected near or below this (the target) */
  constructor(depthPa: number) {
    this.#depthPa = depthPa;
    this.#settled = new StageReader(this.trace, depthPa);
  }

  /** Whether no mark was set, changed or taken back where it has been. */
  isAlong(marks: readonly Mark[]): boolean {
    const upTo = marks.filter(({ elapsedS }) => elapsedS <= this.#readToS);
    return (
      upTo.length === this.#place.mark &&
      upTo.every(({ id, kind, elapsedS }, i) => {
        const known = this.#marks[i];
        return known?.id === id && known.kind === kind && known.elapsedS === elapsedS;
      })
    );
  }

  /**
   * @param staying the next bins that stay as they are
   * @param later what follows them, only for this once
   * @param marks all of them so far, in order of time
   * @returns a reader that has read all of it
   */
  goOn(staying: readonly TimeBin[], later: readonly TimeBin[], marks: readonly Mark[]) {
    this.trace.replaceFrom(this.#staying, [...staying, ...later]);
    for (const { pressurePa } of staying) if (pressurePa !== null) this.#staying += 1;
    this.#waiting.push(...staying);
    let read = 0;
    for (const bin of this.#waiting) {
      if (this.#place.reading + FOLLOWED_BY > this.#staying) break;
      readOne(this.#settled, this.#place, bin, marks);
      this.#readToS = bin.elapsedS;
      read += 1;
    }
    this.#waiting = this.#waiting.slice(read);
    this.#marks = marks.slice(0, this.#place.mark);
    const reader = new StageReader(this.trace, this.#depthPa);
    reader.become(this.#settled);
    const place = { ...this.#place };
    for (const bin of this.#waiting) readOne(reader, place, bin, marks);
    for (const bin of later) readOne(reader, place, bin, marks);
    for (const mark of marks.slice(place.mark)) reader.mark(mark);
    return reader;
  }
}

/** A bin, and the marks that came before it. */
function readOne(
  reader: StageReader,
  place: Place,
  { elapsedS, pressurePa }: TimeBin,
  marks: readonly Mark[],
): void {
  for (let mark = marks[place.mark]; mark && mark.elapsedS <= elapsedS; mark = marks[place.mark]) {
    reader.mark(mark);
    place.mark += 1;
  }
  if (pressurePa === null) {
    reader.overRange(elapsedS);
    return;
  }
  reader.reading(place.reading);
  place.reading += 1;
}
