/** The curve as the stage recognition looks at it: logarithms freed of spikes, and sums over any stretch. */
import type { TimeBin } from '../readings/bin-level.ts';

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

/** Before there is anything to go by. */
const FIRST_USUAL = SPIKE_SHARE / SPIKE_TIMES;
/** Readings that there is room for at first. */
const LEAST_ROOM = 64;

/** A straight line through a stretch of it, in ln P. */
export interface Line {
  readonly perS: number;
  readonly mean: number;
  readonly count: number;
  /** Σ (t − t̄)², s²: what the slope's uncertainty goes by. */
  readonly spreadS2: number;
}

/** In-range readings in order of time; over-range ones are the caller's. Beyond the last all is 0. */
export class Trace {
  #length = 0;
  #timesS = new Float64Array(LEAST_ROOM);
  #pressuresPa = new Float64Array(LEAST_ROOM);
  #raw = new Float64Array(LEAST_ROOM);
  #logs = new Float64Array(LEAST_ROOM);
  #scatter = new Float64Array(LEAST_ROOM);
  /** What was usual, and the scatter's variance, once each reading had been seen. */
  #usual = new Float64Array(LEAST_ROOM);
  #scatter2 = new Float64Array(LEAST_ROOM);
  /** Over all readings up to each. */
  #sumT = new Float64Array(LEAST_ROOM);
  #sumY = new Float64Array(LEAST_ROOM);
  #sumTT = new Float64Array(LEAST_ROOM);
  #sumTY = new Float64Array(LEAST_ROOM);

  constructor(bins: readonly TimeBin[]) {
    this.replaceFrom(0, bins);
  }

  /**
   * Keeps the first `count` readings, and lets others follow: the same to the digit as made of all of
   * them at once. Whether the last two are spikes is told anew, since it goes by what follows.
   */
  replaceFrom(count: number, bins: readonly TimeBin[]): void {
    const before = this.#length;
    this.#makeRoomFor(count + bins.length + 1);
    this.#length = count;
    for (const { elapsedS, pressurePa } of bins) {
      if (pressurePa === null) continue;
      this.#timesS[this.#length] = elapsedS;
      this.#pressuresPa[this.#length] = pressurePa;
      this.#raw[this.#length] = Math.log(Math.max(pressurePa, 0) + SOFT_ZERO_PA);
      this.#length += 1;
    }
    if (this.#length < before) {
      for (const column of [this.#timesS, this.#pressuresPa, this.#logs, this.#scatter]) {
        column.fill(0, this.#length, before);
      }
    }
    const from = Math.max(count - 2, 0);
    this.#clean(from);
    this.#sum(from);
  }

  get length(): number {
    return this.#length;
  }

  timeS(index: number): number {
    return this.#timesS[index] ?? 0;
  }

  pressurePa(index: number): number {
    return this.#pressuresPa[index] ?? 0;
  }

  /** ln(P + 0.5 Pa), without spikes. */
  log(index: number): number {
    return this.#logs[index] ?? 0;
  }

  /** Of a single reading, as far as its neighbours tell: standard deviation of the logarithm. */
  scatter(index: number): number {
    return this.#scatter[index] ?? 0;
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

  #clean(from: number): void {
    const last = this.#length - 1;
    let usual = from > 0 ? (this.#usual[from - 1] ?? 0) : FIRST_USUAL;
    let scatter2 = from > 0 ? (this.#scatter2[from - 1] ?? 0) : FIRST_USUAL * FIRST_USUAL;
    for (let i = from; i <= last; i += 1) {
      const here = this.#raw[i] ?? 0;
      const middle = i < 1 || i >= last ? here : medianAround(this.#raw, i, last);
      const off = Math.abs(here - middle);
      this.#logs[i] = off > Math.max(SPIKE_TIMES * usual, SPIKE_SHARE) ? middle : here;
      usual += (Math.min(off, 4 * usual + 1e-4) - usual) / USUAL_OVER;
      if (i >= 2) {
        const bend = this.log(i) - 2 * this.log(i - 1) + this.log(i - 2);
        // Variance of y₂ − 2y₁ + y₀ of independent readings: 1 + 4 + 1.
        const least = Math.min((bend * bend) / 6, 9 * scatter2 + 1e-8);
        scatter2 += (least - scatter2) / USUAL_OVER;
      }
      this.#usual[i] = usual;
      this.#scatter2[i] = scatter2;
      this.#scatter[i] = Math.sqrt(scatter2);
    }
  }

  #sum(from: number): void {
    for (let i = from; i < this.#length; i += 1) {
      const t = this.timeS(i);
      const y = this.log(i);
      this.#sumT[i + 1] = (this.#sumT[i] ?? 0) + t;
      this.#sumY[i + 1] = (this.#sumY[i] ?? 0) + y;
      this.#sumTT[i + 1] = (this.#sumTT[i] ?? 0) + t * t;
      this.#sumTY[i + 1] = (this.#sumTY[i] ?? 0) + t * y;
    }
  }

  #makeRoomFor(count: number): void {
    if (count <= this.#timesS.length) return;
    const room = 2 ** Math.ceil(Math.log2(count));
    this.#timesS = widened(this.#timesS, room);
    this.#pressuresPa = widened(this.#pressuresPa, room);
    this.#raw = widened(this.#raw, room);
    this.#logs = widened(this.#logs, room);
    this.#scatter = widened(this.#scatter, room);
    this.#usual = widened(this.#usual, room);
    this.#scatter2 = widened(this.#scatter2, room);
    this.#sumT = widened(this.#sumT, room);
    this.#sumY = widened(this.#sumY, room);
    this.#sumTT = widened(this.#sumTT, room);
    this.#sumTY = widened(this.#sumTY, room);
  }
}

function widened(values: Float64Array, room: number) {
  const wider = new Float64Array(room);
  wider.set(values);
  return wider;
}

const FIVE = new Float64Array(5);

/** Of three next to an end, else of five. */
function medianAround(values: Float64Array, at: number, last: number): number {
  const reach = at < 2 || at > last - 2 ? 1 : 2;
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
