/**
 * Draws the conclusions from the readings as they come.
 *
 * Readings are folded in at once; judging happens on a fixed grid of data time, so that a live page,
 * a page that caught up and a report come to the same conclusions to the digit.
 */
import type { Mark } from '../../protocol/mark.ts';
import type { Reading } from '../../protocol/reading.ts';
import type { Sheet, SheetEntry } from '../../protocol/sheet.ts';
import type { Conclusions } from './conclusions.ts';
import { judge } from './judge.ts';
import { type Passage, passages } from './passages.ts';
import { History } from './readings/history.ts';
import { gridTime, gridTimeAfter } from './readings/judging-grid.ts';
import { type EnteredFacts, isSameView, sheetThen } from './seen/sheet-then.ts';
import { debrief, type Rehearsed } from './training/debrief.ts';
import type { Finding } from './training/finding.ts';

export class Judging {
  readonly #history = new History();
  readonly #gridTime: (elapsedS: number) => number;
  #latestS: number | null = null;
  #latestThen: { readonly base: Sheet; readonly then: Sheet } | null = null;

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

  /**
   * At the latest point of the grid, or at the next where they are sparse; null before any reading.
   * @param sheet as it stands for this sensor after `entries`
   */
  conclude(
    marks: readonly Mark[],
    sheet: Sheet,
    entries: readonly SheetEntry[],
  ): Conclusions | null {
    const { judgedS } = this;
    return judgedS === null ? null : this.#judgeAt(judgedS, sheet, { marks, entries });
  }

  /** The moment for which `conclude` does; null before any reading. */
  get judgedS(): number | null {
    return this.#latestS === null ? null : this.#gridTime(this.#latestS);
  }

  /** The stages so far, the last one judged as `conclude` does; empty before there is a reading. */
  passages(marks: readonly Mark[], sheet: Sheet, entries: readonly SheetEntry[]): Passage[] {
    const { judgedS } = this;
    if (judgedS === null) return [];
    return passages((nowS) => this.#judgeAt(nowS, sheet, { marks, entries }), judgedS);
  }

  /** A hold is judged as one of what the sensor saw when it began, whatever it has been said to see since. */
  #judgeAt(nowS: number, sheet: Sheet, facts: EnteredFacts): Conclusions {
    const told = judge(this.#history, facts.marks, sheet, nowS);
    if (told.rise === null) return told;
    const { sinceS, heldS } = told.rise;
    const then = sheetThen(sheet, facts, { fromS: sinceS, toS: sinceS + heldS });
    if (then === sheet) return told;
    return judge(this.#history, facts.marks, this.#sameSheet(sheet, then), nowS);
  }

  /** Always the same for the same sheet: what is kept of past moments goes by that. */
  #sameSheet(base: Sheet, then: Sheet): Sheet {
    const known = this.#latestThen;
    if (known?.base === base && isSameView(known.then, then)) return known.then;
    this.#latestThen = { base, then };
    return then;
  }

  /** What a trainee did well and what they missed; for after the reveal. */
  debrief(facts: Omit<Rehearsed, 'history'>): Finding[] {
    return debrief({ ...facts, history: this.#history });
  }
}
