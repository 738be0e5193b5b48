/** The samples of a pull-down and the depths it has come to: what is over stays as it is. */
import { BinRun } from '../readings/bin-run.ts';
import { Depths } from '../readings/depth.ts';
import type { History } from '../readings/history.ts';
import { SampleRun, type Sample } from '../readings/samples.ts';

interface Pumped {
  readonly samples: readonly Sample[];
  readonly depths: Depths;
}

interface Kept extends Pumped {
  readonly toS: number;
  readonly lateReadings: number;
}

/** A pull-down that goes on, or is over. */
class PullDown {
  readonly fromS: number;
  /** What was asked for last, where nothing but a late reading changes it. */
  #kept: Kept | null = null;
  readonly #history: History;
  readonly #bins: BinRun;
  readonly #samples = new SampleRun();
  /** So many of them stay. */
  #staying = 0;

  constructor(history: History, fromS: number) {
    this.fromS = fromS;
    this.#history = history;
    this.#bins = new BinRun(history, fromS);
  }

  upTo(toS: number): Pumped {
    const { lastS, lateReadings } = this.#history;
    if (this.#kept?.toS === toS && this.#kept.lateReadings === lateReadings) return this.#kept;
    const { anew, staying, later } = this.#bins.upTo(toS);
    this.#samples.replaceFrom(anew ? 0 : this.#staying, staying);
    this.#staying = this.#samples.length;
    this.#samples.replaceFrom(this.#staying, later);
    const samples = this.#samples.withoutSpikes();
    const pumped = { samples, depths: new Depths(samples) };
    this.#kept = lastS !== null && lastS > toS ? { ...pumped, toS, lateReadings } : null;
    return pumped;
  }
}

/** The latest that was asked for, of each history. */
const latest = new WeakMap<History, PullDown>();

/** @param toS readings after its whole second change nothing */
export function pumpedSamples(history: History, fromS: number, toS: number): Pumped {
  const known = latest.get(history);
  const pullDown = known?.fromS === fromS ? known : new PullDown(history, fromS);
  latest.set(history, pullDown);
  return pullDown.upTo(toS);
}
