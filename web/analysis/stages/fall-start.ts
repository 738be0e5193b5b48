/** When a pull-down began: the pressure leaves the level where it stood, or comes down into the range. */
import type { Trace } from './trace.ts';

/** A pull-down has begun once the sensor has been in range for so long … */
const IN_RANGE_S = 4;
const IN_RANGE_READINGS = 3;
/** … and has fallen to this part of where it stood, or has been as low as that for so long from the beginning. */
const FALLEN_SHARE = 0.85;
const IN_VACUUM_S = 30;
/** Gas alone does not stand there; water does that boils in summer. */
const VACUUM_PA = 2500;
/** One may be a spike. */
const FALLEN_READINGS = 3;
/** As high as before: a sensor’s noise, and an hour’s weather. */
const HIGH_SHARE = 0.97;
/** Extrapolated upward from no lower than that, Pa: farther down the curve bends. A setting of ours. */
const STILL_GAS_PA = 1000;
/** By a fall of so much at least. */
const LEAST_FALL = 0.1;
const ATMOSPHERE_PA = 101_325;

export class FallStart {
  readonly #trace: Trace;
  /** So many readings have been low by now, one after another. */
  #low = 0;
  #inRange: { readonly sinceS: number; readings: number } | null = null;
  /** Highest that the sensor ever showed, and in this stage. */
  #topPa = 0;
  #peakPa = 0;
  #wasOver = false;
  /** In this stage, so that where it stood was not to be seen. */
  #cut = false;
  /** Last moment at which it stood, where that was below the atmosphere. */
  #stoodUntilS: number | null = null;
  /** Last moment at which it stood at the atmosphere, as far as the sensor shows it. */
  #highUntilS: number | null = null;

  constructor(trace: Trace) {
    this.#trace = trace;
  }

  /** Goes on from where another one is, which stays there. */
  become(other: FallStart): void {
    this.#low = other.#low;
    this.#inRange = other.#inRange && { ...other.#inRange };
    this.#topPa = other.#topPa;
    this.#peakPa = other.#peakPa;
    this.#wasOver = other.#wasOver;
    this.#cut = other.#cut;
    this.#stoodUntilS = other.#stoodUntilS;
    this.#highUntilS = other.#highUntilS;
  }

  /** At least so high has it been, as far as the sensor shows it. */
  get topPa(): number {
    return this.#topPa;
  }

  /** Where its range ends, as far as it has shown that it does, Pa; infinite before. */
  get rangeEndPa(): number {
    return this.#wasOver ? this.#topPa : Infinity;
  }

  /** Another stage begins. */
  begin(): void {
    this.#inRange = null;
    this.#low = 0;
    this.#peakPa = 0;
    this.#cut = false;
    this.#stoodUntilS = null;
    this.#highUntilS = null;
  }

  /** @param pressurePa near atmosphere, or null over range */
  above(elapsedS: number, pressurePa: number | null): void {
    this.#inRange = null;
    this.#low = 0;
    if (pressurePa === null) {
      this.#wasOver = true;
      this.#cut = true;
      this.#stoodUntilS = null;
      this.#highUntilS = null;
    } else {
      this.#topPa = Math.max(this.#topPa, pressurePa);
      if (pressurePa >= HIGH_SHARE * this.#topPa) this.#highUntilS = elapsedS;
    }
    this.#peakPa = Math.max(this.#peakPa, this.#topPa);
  }

  below(elapsedS: number, pressurePa: number): void {
    this.#topPa = Math.max(this.#topPa, pressurePa);
    this.#peakPa = Math.max(this.#peakPa, pressurePa);
    if (!this.#cut && pressurePa >= HIGH_SHARE * this.#peakPa) this.#stoodUntilS = elapsedS;
  }

  /** Back in the range from over it, and well below its top: since when it has been in range, or null. */
  fallenIntoRange(index: number): number | null {
    return this.#fallen(index) ? (this.#inRange?.sinceS ?? null) : null;
  }

  /**
   * Looked at while nothing is pumped.
   * @param fromBeginning no pull-down has been before: a recording may begin in the midst of one
   * @returns when the fall began that shows by now, or null
   */
  look(index: number, fromBeginning: boolean): number | null {
    const hasFallen = this.#fallen(index);
    const sinceS = this.#inRange?.sinceS ?? 0;
    const inVacuum =
      fromBeginning &&
      this.#trace.timeS(index) - sinceS >= IN_VACUUM_S &&
      this.#trace.pressurePa(index) < VACUUM_PA;
    if (!hasFallen && !inVacuum) return null;
    return this.#highUntilS ?? this.#stoodUntilS ?? this.#extrapolated(index, sinceS) ?? sinceS;
  }

  #fallen(index: number): boolean {
    const elapsedS = this.#trace.timeS(index);
    this.#inRange ??= { sinceS: elapsedS, readings: 0 };
    this.#inRange.readings += 1;
    const { sinceS, readings } = this.#inRange;
    if (readings < IN_RANGE_READINGS || elapsedS - sinceS < IN_RANGE_S) return false;
    const isLow = this.#trace.pressurePa(index) <= FALLEN_SHARE * this.#peakPa;
    this.#low = isLow ? this.#low + 1 : 0;
    return this.#low >= FALLEN_READINGS;
  }

  /**
   * Over range at its beginning: gas goes by P = P₀·e^(−t·S/V). A hose lets more through while the
   * pressure is high, so that the fall may have begun later.
   */
  #extrapolated(index: number, inRangeSinceS: number): number | null {
    const trace = this.#trace;
    const first = trace.firstAfter(inRangeSinceS - 1e-3);
    const fromPa = trace.pressurePa(first);
    const overS = trace.timeS(index) - trace.timeS(first);
    const fall = trace.log(first) - trace.log(index);
    if (fromPa < STILL_GAS_PA || overS <= 0 || fall < LEAST_FALL) return null;
    return inRangeSinceS - (Math.log(ATMOSPHERE_PA / fromPa) * overS) / fall;
  }
}
