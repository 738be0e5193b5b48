/** The bins of a hold that goes on, and its samples: what is over stays as it is, and is read once. */
import type { TimeBin } from '../readings/bin-level.ts';
import { BinRun } from '../readings/bin-run.ts';
import type { History } from '../readings/history.ts';
import { inRange } from '../readings/in-range.ts';
import { SampleRun, samplesFromBins, type Sample } from '../readings/samples.ts';

interface Readings {
  /** From before the sensor's range ended. */
  readonly bins: readonly TimeBin[];
  /** Of these, without spikes; the list is the caller's own. */
  readonly samples: Sample[];
}

class HoldReadings {
  readonly fromS: number;
  /** As far as it was asked for last. */
  toS = 0;
  readonly #run: BinRun;
  readonly #bins: TimeBin[] = [];
  readonly #samples = new SampleRun();
  /** So many samples stay. */
  #staying = 0;

  constructor(history: History, fromS: number) {
    this.fromS = fromS;
    this.#run = new BinRun(history, fromS);
  }

  upTo(toS: number): Readings {
    this.toS = toS;
    const { anew, staying, later } = this.#run.upTo(toS);
    if (anew) this.#bins.length = 0;
    for (const bin of staying) this.#bins.push(bin);
    this.#samples.replaceFrom(anew ? 0 : this.#staying, staying);
    this.#staying = this.#samples.length;
    this.#samples.replaceFrom(this.#staying, later);
    const all = this.#bins.concat(later);
    const bins = inRange(all);
    return {
      bins,
      samples: bins === all ? this.#samples.withoutSpikes() : samplesFromBins(bins),
    };
  }
}

/** The latest that was asked for, of each history. */
const latest = new WeakMap<History, HoldReadings>();

/** @param toS readings after its whole second change nothing */
export function holdReadings(history: History, fromS: number, toS: number): Readings {
  const known = latest.get(history);
  if (known?.fromS === fromS && known.toS > toS) {
    // A look back: the present goes on from where it was.
    const bins = inRange(history.bins(fromS, toS));
    return { bins, samples: samplesFromBins(bins) };
  }
  const hold = known?.fromS === fromS ? known : new HoldReadings(history, fromS);
  latest.set(history, hold);
  return hold.upTo(toS);
}
