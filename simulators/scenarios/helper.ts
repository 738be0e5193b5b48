/** Works through a scenario's script by what the sensor shows, as a technician would. */
import type { ScriptStep } from './scenario.ts';

export class Helper {
  readonly #steps: ScriptStep[];
  #lastStepS = 0;
  /** Since when the sensor has shown less than the next step asks for. */
  #belowSinceS: number | null = null;

  constructor(script: readonly ScriptStep[]) {
    this.#steps = [...script];
  }

  /** What is due at this reading; at most one thing a reading. */
  due(elapsedS: number, pressurePa: number | null): ScriptStep['do'] | null {
    const next = this.#steps[0];
    if (!next || !this.#isDue(next, elapsedS, pressurePa)) return null;
    this.#steps.shift();
    this.#lastStepS = elapsedS;
    this.#belowSinceS = null;
    return next.do;
  }

  #isDue({ when }: ScriptStep, elapsedS: number, pressurePa: number | null): boolean {
    const waitedS = elapsedS - this.#lastStepS;
    if ('afterS' in when) return waitedS >= when.afterS;
    if (when.orAfterS !== undefined && waitedS >= when.orAfterS) return true;
    if (pressurePa === null || pressurePa >= when.belowPa) {
      this.#belowSinceS = null;
      return false;
    }
    this.#belowSinceS ??= elapsedS;
    return elapsedS - this.#belowSinceS >= when.heldS;
  }
}
