/** The curve as the stage recognition looks at it: logarithms freed of spikes, and sums over any stretch. */
import type { TimeBin } from './bin-level.ts';

/**
 * Added to the pressure before its logarithm is taken, Pa: about four counts of a sensor that resolves
 * one micron (0.13 Pa), so that a reading of none is no abyss. A setting of ours.
 */
const SOFT_ZERO_PA = 0.5;
/** A spike stands out from the median of the five around it by so many times the usual … */
const SPIKE_TIMES = 6;
/** … and by at least this part of the reading. */
const SPIKE_SHARE = 0.03;
/** What is usual forgets within so many readings. */
const USUAL_OVER = 32;

/** A straight line through a stretch of it, in ln P. */
export interface Line {
  readonly perS: number;
  readonly mean: number;
  readonly count: number;
  /** Σ (t − t̄)², s²: what the slope's uncertainty goes by. */
  readonly spreadS2: number;
}

/** In-range readings in order of time; over-range ones are the caller's. */
export class Trace {
  readonly timesS: Float64Array;
  readonly pressuresPa: Float64Array;
  /** ln(P + 0.5 Pa), without spikes. */
  readonly logs: Float64Array;
  /** Of a single reading, as far as its neighbours tell: standard deviation of the logarithm. */
  readonly scatter: Float64Array;
  readonly #sumT: Float64Array;
  readonly #sumY: Float64Array;
  readonly #sumTT: Float64Array;
  readonly #sumTY: Float64Array;

  constructor(bins: readonly TimeBin[]) {
    const raw = new Float64Array(bins.length);
    const timesS = new Float64Array(bins.length);
    const pressuresPa = new Float64Array(bins.length);
    let length = 0;
    for (const { elapsedS, pressurePa } of bins) {
      if (pressurePa === null) continue;
      timesS[length] = elapsedS;
      pressuresPa[length] = pressurePa;
      raw[length] = Math.log(Math.max(pressurePa, 0) + SOFT_ZERO_PA);
      length += 1;
    }
    this.timesS = timesS.subarray(0, length);
    this.pressuresPa = pressuresPa.subarray(0, length);
    this.logs = new Float64Array(length);
    this.scatter = new Float64Array(length);
    this.#sumT = new Float64Array(length + 1);
    this.#sumY = new Float64Array(length + 1);
    this.#sumTT = new Float64Array(length + 1);
    this.#sumTY = new Float64Array(length + 1);
    this.#clean(raw.subarray(0, length));
    this.#sum();
  }

  get length(): number {
    return this.timesS.length;
  }

  timeS(index: number): number {
    return this.timesS[index] ?? 0;
  }

  log(index: number): number {
    return this.logs[index] ?? 0;
  }

  /** The first reading later than that, by halving. */
  firstAfter(elapsedS: number): number {
    let low = 0;
    let high = this.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.timeS(middle) <= elapsedS) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** @param from first, and `to` one past the last */
  line(from: number, to: number): Line {
    const count = to - from;
    const t = (this.#sumT[to] ?? 0) - (this.#sumT[from] ?? 0);
    const y = (this.#sumY[to] ?? 0) - (this.#sumY[from] ?? 0);
    const tt = (this.#sumTT[to] ?? 0) - (this.#sumTT[from] ?? 0);
    const ty = (this.#sumTY[to] ?? 0) - (this.#sumTY[from] ?? 0);
    const spreadS2 = Math.max(tt - (t * t) / count, 0);
    const perS = spreadS2 > 1e-6 ? (ty - (t * y) / count) / spreadS2 : 0;
    return { perS, mean: y / count, count, spreadS2 };
  }

  #clean(raw: Float64Array): void {
    let usual = SPIKE_SHARE / SPIKE_TIMES;
    let scatter2 = usual * usual;
    for (let i = 0; i < raw.length; i += 1) {
      const here = raw[i] ?? 0;
      const middle = i < 1 || i > raw.length - 2 ? here : medianAround(raw, i);
      const off = Math.abs(here - middle);
      this.logs[i] = off > Math.max(SPIKE_TIMES * usual, SPIKE_SHARE) ? middle : here;
      usual += (Math.min(off, 4 * usual + 1e-4) - usual) / USUAL_OVER;
      if (i >= 2) {
        const bend = this.log(i) - 2 * this.log(i - 1) + this.log(i - 2);
        // Variance of y₂ − 2y₁ + y₀ of independent readings: 1 + 4 + 1.
        const least = Math.min((bend * bend) / 6, 9 * scatter2 + 1e-8);
        scatter2 += (least - scatter2) / USUAL_OVER;
      }
      this.scatter[i] = Math.sqrt(scatter2);
    }
  }

  #sum(): void {
    for (let i = 0; i < this.length; i += 1) {
      const [t, y] = [this.timeS(i), this.log(i)];
      this.#sumT[i + 1] = (this.#sumT[i] ?? 0) + t;
      this.#sumY[i + 1] = (this.#sumY[i] ?? 0) + y;
      this.#sumTT[i + 1] = (this.#sumTT[i] ?? 0) + t * t;
      this.#sumTY[i + 1] = (this.#sumTY[i] ?? 0) + t * y;
    }
  }
}

const FIVE = new Float64Array(5);

/** Of three next to an end, else of five. */
function medianAround(values: Float64Array, at: number): number {
  const reach = at < 2 || at > values.length - 3 ? 1 : 2;
  const count = 2 * reach + 1;
  for (let i = 0; i < count; i += 1) {
    const value = values[at - reach + i] ?? 0;
    let place = i;
    for (; place > 0 && (FIVE[place - 1] ?? 0) > value; place -= 1) {
      FIVE[place] = FIVE[place - 1] ?? 0;
    }
    FIVE[place] = value;
  }
  return FIVE[reach] ?? 0;
}
