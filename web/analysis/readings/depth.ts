/** When a depth was reached and held. */
import { mediansAlong } from '../fitting/median.ts';
import type { Sample } from './samples.ts';

/** Held means: below the limit all this long … */
const HELD_S = 10;
/** … and in at least this many samples, so that two odd readings are not a depth. */
const HELD_SAMPLES = 3;
/** Lost again once it stands a quarter higher for as long: a setting of ours, against flapping. */
const LOST_FACTOR = 1.25;

/** A pull-down that is asked for several depths, and often: each is looked for once. */
export class Depths {
  readonly #samples: readonly Sample[];
  /** Taken only where needed. */
  #medians: Float64Array | null = null;
  readonly #first = new Map<number, number | null>();
  readonly #latest = new Map<number, number | null>();

  constructor(samples: readonly Sample[]) {
    this.#samples = samples;
  }

  /**
   * The moment from which the curve was no higher than `limitPa` for 10 s and three samples, or null.
   * Looks at the median of five samples, so that a spike neither makes nor breaks it. It is known
   * 10 s after the fact.
   */
  firstHeldBelowS(limitPa: number): number | null {
    return keptIn(this.#first, limitPa, () => this.#findFirst(limitPa));
  }

  /** The same for the latest stretch: null where the depth has been lost since. */
  heldBelowSinceS(limitPa: number): number | null {
    return keptIn(this.#latest, limitPa, () => this.#findLatest(limitPa));
  }

  #findFirst(limitPa: number): number | null {
    const medians = this.#mediansFor(limitPa);
    const run = new Run();
    for (let i = 0; i < medians.length; i += 1) {
      const sample = this.#samples[i];
      if (sample === undefined) break;
      if (run.holdsAt(sample.elapsedS, (medians[i] ?? 0) <= limitPa)) return run.sinceS;
    }
    return null;
  }

  #findLatest(limitPa: number): number | null {
    const medians = this.#mediansFor(limitPa);
    const below = new Run();
    const above = new Run();
    let heldSinceS: number | null = null;
    for (let i = 0; i < medians.length; i += 1) {
      const sample = this.#samples[i];
      if (sample === undefined) break;
      const { elapsedS } = sample;
      const medianPa = medians[i] ?? 0;
      if (below.holdsAt(elapsedS, medianPa <= limitPa)) heldSinceS ??= below.sinceS;
      if (above.holdsAt(elapsedS, medianPa > LOST_FACTOR * limitPa)) heldSinceS = null;
    }
    return heldSinceS;
  }

  /** None where no sample is as low as that: during most of a pull-down. */
  #mediansFor(limitPa: number): Float64Array {
    if (this.#medians === null) {
      const pressures = new Float64Array(this.#samples.length);
      let lowestPa = Infinity;
      for (let i = 0; i < pressures.length; i += 1) {
        const sample = this.#samples[i];
        if (sample === undefined) break;
        pressures[i] = sample.pressurePa;
        if (sample.pressurePa < lowestPa) lowestPa = sample.pressurePa;
      }
      if (lowestPa > limitPa) return NONE;
      this.#medians = mediansAlong(pressures, 2, 2);
    }
    return this.#medians;
  }
}

const NONE = new Float64Array(0);

function keptIn<T>(known: Map<number, T>, key: number, find: () => T): T {
  const found = known.get(key);
  if (found !== undefined) return found;
  const value = find();
  known.set(key, value);
  return value;
}

/** As `Depths` has it, for one depth. */
export function firstHeldBelowS(samples: readonly Sample[], limitPa: number): number | null {
  return new Depths(samples).firstHeldBelowS(limitPa);
}

/** A stretch in which something has held without a break. */
class Run {
  #samples = 0;
  sinceS: number | null = null;

  /** True once it has held for long enough. */
  holdsAt(elapsedS: number, holds: boolean): boolean {
    if (!holds) {
      this.sinceS = null;
      this.#samples = 0;
      return false;
    }
    this.sinceS ??= elapsedS;
    this.#samples += 1;
    return this.#samples >= HELD_SAMPLES && elapsedS - this.sinceS >= HELD_S;
  }
}
