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
import { debrief, type Rehearsed } from './debrief.ts';
import type { Finding } from './finding.ts';
import { judge } from './judge.ts';
import { gridTime, gridTimeAfter } from './judging-grid.ts';
import { type Passage, passages } from './passages.ts';

export class Judging {
  readonly #history = new History();
  readonly #gridTime: (elapsedS: number) => number;
  #latestS: number | null = null;

  /** @param sparse the readings come minutes apart, as those that are typed in do */
  constructor(sparse = false) {
    this.#gridTime = sparse ? gridTimeAfter : gridTime;
  }

  /** The readings as folded, for whoever looks at more of them than the conclusions say. */
  get history(): History {
    return this.#history;
  }

  insert(readings: readonly Reading[]): void {
    for (const reading of readings) {
      this.#history.insert(reading);
      this.#latestS = Math.max(this.#latestS ?? 0, reading.elapsedS);
    }
  }

  /** At the latest point of the grid, or at the next where they are sparse; null before any reading. */
  conclude(marks: readonly Mark[], sheet: Sheet): Conclusions | null {
    const { judgedS } = this;
    return judgedS === null ? null : judge(this.#history, marks, sheet, judgedS);
  }

  /** The moment for which `conclude` does; null before any reading. */
  get judgedS(): number | null {
    return this.#latestS === null ? null : this.#gridTime(this.#latestS);
  }

  /** The stages so far, the last one judged as `conclude` does; empty before there is a reading. */
  passages(marks: readonly Mark[], sheet: Sheet): Passage[] {
    const { judgedS } = this;
    if (judgedS === null) return [];
    return passages((nowS) => judge(this.#history, marks, sheet, nowS), judgedS);
  }

  /** What a trainee did well and what they missed; for after the reveal. */
  debrief(facts: Omit<Rehearsed, 'history'>): Finding[] {
    return debrief({ ...facts, history: this.#history });
  }
}
