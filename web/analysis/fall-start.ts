/** When a pull-down began: the pressure leaves the level where it stood, or comes down into the range. */
import type { Trace } from './trace.ts';

/** A pull-down has begun once the sensor has been in range for so long … */
const IN_RANGE_S = 4;
const IN_RANGE_READINGS = 3;
/** … and has fallen to this part of where it stood, or has been in range for so long from the beginning. */
const FALLEN_SHARE = 0.85;
const IN_VACUUM_S = 30;
/** As high as before: a sensor’s noise, and an hour’s weather. */
const HIGH_SHARE = 0.97;
/** Extrapolated upward from no lower than that, Pa: farther down the curve bends. A setting of ours. */
const STILL_GAS_PA = 1000;
/** By a fall of so much at least. */
const LEAST_FALL = 0.2;
const ATMOSPHERE_PA = 101_325;

export class FallStart {
  readonly #trace: Trace;
  #inRange: { readonly sinceS: number; readings: number } | null = null;
  /** Highest that the sensor ever showed, and in this stage. */
  #topPa = 0;
  #peakPa = 0;
  /** Last moment at which it stood at the atmosphere, as far as the sensor shows it. */
  #highUntilS: number | null = null;

  constructor(trace: Trace) {
    this.#trace = trace;
  }

  /** At least so high has it been, as far as the sensor shows it. */
  get topPa(): number {
    return this.#topPa;
  }

  /** Another stage begins. */
  begin(): void {
    this.#inRange = null;
    this.#peakPa = 0;
  }

  /** @param pressurePa near atmosphere, or null over range */
  above(elapsedS: number, pressurePa: number | null): void {
    this.#inRange = null;
    if (pressurePa === null) {
      this.#highUntilS = null;
    } else {
      this.#topPa = Math.max(this.#topPa, pressurePa);
      if (pressurePa >= HIGH_SHARE * this.#topPa) this.#highUntilS = elapsedS;
    }
    this.#peakPa = Math.max(this.#peakPa, this.#topPa);
  }

  below(pressurePa: number): void {
    this.#topPa = Math.max(this.#topPa, pressurePa);
    this.#peakPa = Math.max(this.#peakPa, pressurePa);
  }

  /**
   * Looked at while nothing is pumped.
   * @param fromBeginning no pull-down has been before: a recording may begin in the midst of one
   * @returns when the fall began that shows by now, or null
   */
  look(index: number, fromBeginning: boolean): number | null {
    const elapsedS = this.#trace.timeS(index);
    this.#inRange ??= { sinceS: elapsedS, readings: 0 };
    this.#inRange.readings += 1;
    const { sinceS, readings } = this.#inRange;
    const inRangeS = elapsedS - sinceS;
    if (readings < IN_RANGE_READINGS || inRangeS < IN_RANGE_S) return null;
    const hasFallen = (this.#trace.pressuresPa[index] ?? 0) <= FALLEN_SHARE * this.#peakPa;
    if (!hasFallen && !(fromBeginning && inRangeS >= IN_VACUUM_S)) return null;
    return this.#highUntilS ?? this.#extrapolated(index, sinceS) ?? sinceS;
  }

  /**
   * Over range at its beginning: gas goes by P = P₀·e^(−t·S/V). A hose lets more through while the
   * pressure is high, so that the fall may have begun later.
   */
  #extrapolated(index: number, inRangeSinceS: number): number | null {
    const trace = this.#trace;
    const first = trace.firstAfter(inRangeSinceS - 1e-3);
    const fromPa = trace.pressuresPa[first] ?? 0;
    const overS = trace.timeS(index) - trace.timeS(first);
    const fall = trace.log(first) - trace.log(index);
    if (fromPa < STILL_GAS_PA || overS <= 0 || fall < LEAST_FALL) return null;
    return inRangeSinceS - (Math.log(ATMOSPHERE_PA / fromPa) * overS) / fall;
  }
}
