/** Watches for the system being filled: over range, near atmosphere, or many times as high in a minute. */
import { filledBy, type Before, type Filled } from './filling.ts';
import type { Trace } from './trace.ts';

/** Above half an atmosphere, going up, the system counts as open. */
export const NEAR_ATMOSPHERE_PA = 50_000;
/** So long over range or near atmosphere, and so long after it rushed up, before it counts as filled. */
const FILLED_FOR_S = 20;
/** Or before it is out of the sensor's range. */
const OUT_FOR_S = 8;
const OUT_READINGS = 4;
/** So long and so many readings in range before a blank is over: a spike is not the end of it. */
const BACK_FOR_S = 4;
const BACK_READINGS = 2;
/** Rushed up: by this in ln P (a factor of eight) over what it was a minute before … */
const RUSH = Math.log(8);
const RUSH_FROM_S = 90;
const RUSH_TO_S = 60;
/** … and stayed above this part of its height. */
const STAYED_SHARE = 0.7;
/** Nobody fills to less, Pa: an open ballast, say, comes to rest lower. A setting of ours. */
const LEAST_FILLED_PA = 2000;
/** Still rising: by a sixth since. */
const STILL_RISING = 1.15;

export interface Fill extends Filled {
  /** It goes on rising: what comes in is slow for a cylinder's or the air's pressure. */
  readonly stillRising: boolean;
}

interface Rush extends Filled {
  readonly seenS: number;
  readonly seenPa: number;
  peakPa: number;
}

export class FillWatch {
  readonly #trace: Trace;
  #from = 0;
  /** First reading of the half minute that ended a minute ago, and one past its last. */
  #ago = 0;
  #lately = 0;
  #openSince: number | null = null;
  #openReadings = 0;
  #filled: Filled | null = null;
  #back: { readonly sinceS: number; readings: number } | null = null;
  #rush: Rush | null = null;
  #fellBackS: number | null = null;

  constructor(trace: Trace) {
    this.#trace = trace;
  }

  /** A stage begins with this reading. */
  begin(from: number): void {
    this.#from = from;
    this.#ago = from;
    this.#lately = from;
    this.#filled = null;
    this.#rush = null;
  }

  /** Goes on from where another one is, which stays there. */
  become(other: FillWatch): void {
    this.#from = other.#from;
    this.#ago = other.#ago;
    this.#lately = other.#lately;
    this.#openSince = other.#openSince;
    this.#openReadings = other.#openReadings;
    this.#filled = other.#filled;
    this.#back = other.#back && { ...other.#back };
    this.#rush = other.#rush && { ...other.#rush };
    this.#fellBackS = other.#fellBackS;
  }

  /** When a rush began that did not stay, told once; null: there was none. */
  takeFellBack(): number | null {
    const atS = this.#fellBackS;
    this.#fellBackS = null;
    return atS;
  }

  /** A rush is being watched: nothing else is to be made of the curve meanwhile. */
  get rushing(): boolean {
    return this.#rush !== null;
  }

  /**
   * An over-range reading, or one near atmosphere.
   * @param latest last reading below that
   * @param topPa at least so high is it
   */
  above(elapsedS: number, latest: number, topPa: number, before: Before): Fill | null {
    this.#back = null;
    this.#openSince ??= elapsedS;
    this.#openReadings += 1;
    if (latest < this.#from) return null;
    this.#filled ??= filledBy(this.#trace, latest, { nowS: this.#openSince, topPa }, before);
    if (elapsedS - this.#openSince < FILLED_FOR_S) return null;
    if (!this.#filled.fast && topPa < NEAR_ATMOSPHERE_PA) return null;
    return { ...this.#filled, stillRising: false };
  }

  /** True while a reading in range may be no more than a spike in a blank. */
  isBlank(index: number): boolean {
    if (this.#openSince === null) return false;
    const nowS = this.#trace.timeS(index);
    this.#back ??= { sinceS: nowS, readings: 0 };
    this.#back.readings += 1;
    return this.#back.readings < BACK_READINGS || nowS - this.#back.sinceS < BACK_FOR_S;
  }

  /** The blank is over. @returns what it hid: a filling that has come to an end */
  endBlank(pressurePa: number): Fill | null {
    const [openSince, filled, back] = [this.#openSince, this.#filled, this.#back];
    this.#openSince = null;
    this.#openReadings = 0;
    this.#filled = null;
    this.#back = null;
    if (openSince === null || filled === null || back === null || !filled.fast) return null;
    if (back.sinceS - openSince < FILLED_FOR_S) return null;
    return pressurePa > Math.exp(RUSH) * filled.footPa ? { ...filled, stillRising: false } : null;
  }

  get isOpen(): boolean {
    return this.#openSince !== null;
  }

  /** For so long, and so many readings, that it is no spike. */
  isOutOfRange(nowS: number): boolean {
    return (
      this.#openSince !== null &&
      this.#openReadings >= OUT_READINGS &&
      nowS - this.#openSince >= OUT_FOR_S
    );
  }

  /** A reading well below atmosphere. */
  within(index: number, before: Before): Fill | null {
    const trace = this.#trace;
    const nowS = trace.timeS(index);
    const pressurePa = trace.pressurePa(index);
    if (this.#rush === null) {
      if (trace.log(index) - this.#aMinuteAgo(index) < RUSH) return null;
      const filled = filledBy(trace, index, { nowS, topPa: pressurePa }, before);
      if (filled.fast) {
        this.#rush = { ...filled, seenS: nowS, seenPa: pressurePa, peakPa: pressurePa };
      }
      return null;
    }
    const rush = this.#rush;
    rush.peakPa = Math.max(rush.peakPa, pressurePa);
    if (nowS - rush.seenS < FILLED_FOR_S) return null;
    this.#rush = null;
    if (pressurePa < STAYED_SHARE * rush.peakPa) {
      this.#fellBackS = rush.sinceS;
      return null;
    }
    const stillRising = pressurePa > STILL_RISING * rush.seenPa;
    return stillRising || pressurePa > LEAST_FILLED_PA ? { ...rush, stillRising } : null;
  }

  /** Mean ln P then; where it was not yet watched, nothing rushes. */
  #aMinuteAgo(index: number): number {
    const trace = this.#trace;
    const nowS = trace.timeS(index);
    while (this.#ago < index && trace.timeS(this.#ago) <= nowS - RUSH_FROM_S) this.#ago += 1;
    this.#lately = Math.max(this.#lately, this.#ago);
    while (this.#lately < index && trace.timeS(this.#lately) <= nowS - RUSH_TO_S) this.#lately += 1;
    return this.#lately > this.#ago ? trace.line(this.#ago, this.#lately).mean : Infinity;
  }
}
