/** Notes of each reading whether something is missing before it, so that no line may join the two. */
import {
  type Heard,
  INTERVALS_LOOKED_AT,
  isGapBetween,
  missingBetween,
  usualInterval,
} from '../analysis/readings/gap.ts';
import type { ChannelReadings } from './channel-readings.ts';

export class GapNotes {
  readonly #readings: ChannelReadings;
  readonly #noted: (row: number, isAfterGap: boolean) => void;
  readonly #intervalsS: number[] = [];
  /** Times of readings that came after a silence, while what is usual may still change, s. */
  #doubtful: { readonly elapsedS: number; readonly at: number }[] = [];
  #appended = 0;
  #latestS = Number.NEGATIVE_INFINITY;

  /** @param noted told of a row whose note was changed after it had been given first */
  constructor(readings: ChannelReadings, noted: (row: number, isAfterGap: boolean) => void) {
    this.#readings = readings;
    this.#noted = noted;
  }

  /** Of a row that is new; those before and after it are held already. */
  noteNew(row: number): boolean {
    const readings = this.#readings;
    const isAfterGap = this.#judge(row);
    readings.noteGap(row, isAfterGap);
    const elapsedS = readings.elapsedS(row);
    if (elapsedS < this.#latestS) {
      // It fills a gap, or splits it.
      if (row + 1 < readings.length) this.#noteAgain(row + 1);
    } else {
      this.#latestS = elapsedS;
      if (row > 0) this.#append(row, isAfterGap);
    }
    return isAfterGap;
  }

  /** What a silence is, the latest intervals tell: at a beginning, and where the pace was changed, late. */
  #append(row: number, isAfterGap: boolean): void {
    const before = this.#heard(row - 1);
    const after = this.#heard(row);
    this.#appended += 1;
    this.#intervalsS.push(after.elapsedS - before.elapsedS);
    if (this.#intervalsS.length > INTERVALS_LOOKED_AT) this.#intervalsS.shift();
    const isBySilence = isAfterGap && before.boot === after.boot;
    if (isBySilence && missingBetween(before, after) === 0) {
      this.#doubtful.push({ elapsedS: after.elapsedS, at: this.#appended });
    }
    if (this.#doubtful.length === 0) return;
    this.#doubtful = this.#doubtful.filter(({ at }) => this.#appended - at < INTERVALS_LOOKED_AT);
    for (const { elapsedS } of this.#doubtful) this.#noteAgain(this.#readings.rowFrom(elapsedS));
  }

  #noteAgain(row: number): void {
    const isAfterGap = this.#judge(row);
    if (isAfterGap === this.#readings.isAfterGap(row)) return;
    this.#readings.noteGap(row, isAfterGap);
    this.#noted(row, isAfterGap);
  }

  #judge(row: number): boolean {
    if (row === 0) return false;
    const before = this.#heard(row - 1);
    const after = this.#heard(row);
    // What is none where no silence is usual is none at all: hardly ever are the intervals sorted.
    return (
      isGapBetween(before, after, 0) && isGapBetween(before, after, usualInterval(this.#intervalsS))
    );
  }

  #heard(row: number): Heard {
    const readings = this.#readings;
    return {
      boot: readings.boot(row),
      sequence: readings.sequence(row),
      elapsedS: readings.elapsedS(row),
    };
  }
}
