/**
 * Draws the conclusions from the readings as they come.
 *
 * Readings are folded in at once; judging happens on a fixed grid of data time, so that a live page,
 * a page that caught up and a report come to the same conclusions to the digit.
 */
import type { Mark } from '../../protocol/mark.ts';
import type { Reading } from '../../protocol/reading.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions } from './conclusions.ts';
import { History } from './history.ts';
import { gridTime, judge } from './judge.ts';

export class Judging {
  readonly #history = new History();
  #latestS: number | null = null;

  insert(readings: readonly Reading[]): void {
    for (const reading of readings) {
      this.#history.insert(reading);
      this.#latestS = Math.max(this.#latestS ?? 0, reading.elapsedS);
    }
  }

  /** At the latest point of the grid; null before there is a reading. */
  conclude(marks: readonly Mark[], sheet: Sheet): Conclusions | null {
    if (this.#latestS === null) return null;
    return judge(this.#history, marks, sheet, gridTime(this.#latestS));
  }
}
