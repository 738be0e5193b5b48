/**
 * The readings of a recording, folded for its report as they come: what is kept does not grow with
 * the recording's length.
 */
import type { Mark } from '../../protocol/mark.ts';
import type { Condition, Reading } from '../../protocol/reading.ts';
import type { Sheet, SheetEntry } from '../../protocol/sheet.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import { type Gap, GapFinder } from '../analysis/readings/gap-finder.ts';
import { Judging } from '../analysis/judging.ts';
import { type LeakHunt, leakHunt } from '../analysis/hunt/leak-hunt.ts';
import { type Numbers, numbersOf } from '../analysis/numbers.ts';
import type { Passage } from '../analysis/passages.ts';
import { type EnteredFacts, sheetWhilePumped } from '../analysis/seen/sheet-then.ts';
import { type TripleTold, tripleTold } from '../analysis/cycles/triple-told.ts';
import { type PullDownSpan, type WaterFound, waterFound } from '../analysis/flows/water-found.ts';
import { ThinnedCurve } from '../figure/thinned-curve.ts';

export class ReportReadings {
  readonly #channels = new Map<number, ChannelFold>();
  readonly #typedIn: boolean;

  /** @param typedIn by hand, minutes apart: nothing can be missing between two readings */
  constructor(typedIn: boolean) {
    this.#typedIn = typedIn;
  }

  /** Takes a chunk. In the order of the record; a late reading may belong anywhere before. */
  insert(readings: readonly Reading[]): void {
    for (const reading of readings) this.#channel(reading.channel).insert(reading);
  }

  /** By number; only those that gave readings. */
  channels(): ChannelFold[] {
    return [...this.#channels.values()].sort((a, b) => a.channel - b.channel);
  }

  #channel(number: number): ChannelFold {
    const known = this.#channels.get(number);
    if (known !== undefined) return known;
    const created = new ChannelFold(number, this.#typedIn);
    this.#channels.set(number, created);
    return created;
  }
}

/** The readings of one sensor. */
export class ChannelFold {
  readonly channel: number;
  readonly curve = new ThinnedCurve();
  readonly counts = new Map<Condition, number>();
  readonly #judging: Judging;
  readonly #gaps: GapFinder | null;
  #latestS = 0;

  constructor(channel: number, typedIn: boolean) {
    this.channel = channel;
    this.#judging = new Judging(typedIn);
    this.#gaps = typedIn ? null : new GapFinder();
  }

  /** Data time of the latest reading, s. */
  get latestS(): number {
    return this.#latestS;
  }

  insert(reading: Reading): void {
    this.#latestS = Math.max(this.#latestS, reading.elapsedS);
    this.counts.set(reading.condition, (this.counts.get(reading.condition) ?? 0) + 1);
    this.curve.insert(reading);
    this.#judging.insert([reading]);
    this.#gaps?.insert(reading);
  }

  passages(sheet: Sheet, { marks, entries }: EnteredFacts): Passage[] {
    return this.#judging.passages(marks, sheet, entries);
  }

  numbers(conclusions: Conclusions, sheet: Sheet, facts: EnteredFacts): Numbers {
    return numbersOf(this.#judging.history, conclusions, sheet, facts);
  }

  water(pulled: PullDownSpan, sheet: Sheet, facts: EnteredFacts): WaterFound {
    return waterFound(this.#judging.history, pulled, sheetWhilePumped(sheet, facts, pulled));
  }

  cycles(marks: readonly Mark[], entries: readonly SheetEntry[]): TripleTold {
    return tripleTold(this.#judging.history, marks, entries, this.#judging.judgedS ?? 0);
  }

  hunt(marks: readonly Mark[], entries: readonly SheetEntry[]): LeakHunt {
    return leakHunt(this.#judging.history, marks, entries, this.#judging.judgedS ?? 0);
  }

  /** In order of time. */
  gaps(): Gap[] {
    return this.#gaps?.gaps() ?? [];
  }

  /** How many gaps there were beyond those. */
  get gapsNotKept(): number {
    return this.#gaps?.notKept ?? 0;
  }
}
