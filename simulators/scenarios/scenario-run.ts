/**
 * A scenario being played, reading by reading. It has no clock: whoever asks for the next reading
 * says how fast time goes. The one stepping core of `play` and of rehearsals on the bridge.
 */
import type { RehearsalAction, Reveal } from '../../protocol/api.ts';
import type { MarkKind } from '../../protocol/mark.ts';
import { SeededRandom } from '../physics/seeded-random.ts';
import { Helper } from './helper.ts';
import { PlayedRig } from './played-rig.ts';
import type { Scenario } from './scenario.ts';
import { Telling } from './telling.ts';
import { truthOf } from './truth.ts';

/** One reading a second. */
export const READING_INTERVAL_S = 1;
/** Nobody rehearses longer. */
const LONGEST_S = 6 * 3600;

/** One reading, and what the helper did on seeing it. */
export interface ScenarioReading {
  readonly elapsedS: number;
  /** Null: over range. */
  readonly pressurePa: number | null;
  readonly temperatureC: number;
  /** False where the radio lost it. */
  readonly heard: boolean;
  /** The sensor has started anew so many times. */
  readonly restarts: number;
  readonly batteryPercent: number;
  readonly event: MarkKind | null;
}

export class ScenarioRun {
  readonly #scenario: Scenario;
  readonly #random: SeededRandom;
  readonly #helper: Helper | null;
  readonly #rig: PlayedRig;
  /** The same job in order, under the same hands. */
  readonly #inOrder: PlayedRig;
  readonly #telling = new Telling();
  #begun = false;
  #finished = false;

  /** @param seed 0 to 2³² − 1: the same seed and actions give the same readings */
  constructor(scenario: Scenario, seed: number, { helper }: { readonly helper: boolean }) {
    const { sensor, ballastOpen, nitrogenPa } = scenario;
    this.#scenario = scenario;
    this.#random = new SeededRandom(seed);
    this.#helper = helper ? new Helper(scenario.script) : null;
    const options = { sensor, ballastOpen, nitrogenPa };
    this.#rig = new PlayedRig(scenario, { ...options, random: this.#random });
    this.#inOrder = new PlayedRig(scenario.inOrder, { ...options, random: new SeededRandom(seed) });
  }

  /** Time of the latest reading, and of whatever is done before the next. */
  get elapsedS(): number {
    return this.#rig.elapsedS;
  }

  /** What there really is where the sensor sits, at the time of the latest reading. */
  get truePa(): number {
    return this.#rig.truePa;
  }

  /** What the sensor would show then without noise and steps, Pa, or null over range. */
  get quietPa(): number | null {
    return this.#rig.quietPa;
  }

  /** Temperature of the metal where the sensor sits, °C. */
  get trueTemperatureC(): number {
    return this.#rig.temperatureC;
  }

  /** The script has come to its end, or the longest time has passed: no more readings. */
  get finished(): boolean {
    return this.#finished;
  }

  /**
   * The next reading: the first at 0 s, then one each second.
   * @throws RangeError after the end
   */
  next(): ScenarioReading {
    if (this.#finished) throw new RangeError('the rehearsal is over');
    if (this.#begun) this.#goOn();
    this.#begun = true;
    const { elapsedS } = this;
    const { silences, restartsAtS, batteryPercent, batteryPercentPerHour } = this.#scenario.radio;
    const pressurePa = this.#rig.read();
    const heard = !silences.some(
      ({ fromS, durationS }) => elapsedS >= fromS && elapsedS < fromS + durationS,
    );
    return {
      elapsedS,
      pressurePa,
      temperatureC: this.#temperatureC(),
      heard,
      restarts: restartsAtS.filter((atS) => atS <= elapsedS).length,
      batteryPercent: Math.max(batteryPercent - (batteryPercentPerHour * elapsedS) / 3600, 0),
      event: this.#help(heard ? pressurePa : null),
    };
  }

  /** Does something to the rig now; null where that changes nothing. */
  act(action: RehearsalAction): MarkKind | null {
    this.#inOrder.act(action);
    return this.#rig.act(action);
  }

  /** What was really wrong, and from when on the curve so far has told. */
  reveal(): Reveal {
    return { ...truthOf(this.#scenario), toldS: this.#telling.toldS };
  }

  #goOn(): void {
    this.#rig.goOn(READING_INTERVAL_S);
    this.#inOrder.goOn(READING_INTERVAL_S);
    this.#telling.see(this.elapsedS, this.#rig.quietPa, this.#inOrder.quietPa);
    if (this.elapsedS >= LONGEST_S) this.#finished = true;
  }

  #help(pressurePa: number | null): MarkKind | null {
    const due = this.#helper?.due(this.elapsedS, pressurePa) ?? null;
    if (due === 'end') this.#finished = true;
    return due === null || due === 'end' ? null : this.act(due);
  }

  /** The sensor's own temperature: that of its surroundings, known to a tenth. */
  #temperatureC(): number {
    return Math.round((this.#rig.temperatureC + 0.05 * this.#random.normal()) * 10) / 10;
  }
}
