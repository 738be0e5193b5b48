/**
 * A scenario being played, reading by reading. It has no clock: whoever asks for the next reading
 * says how fast time goes. The one stepping core of `play` and of rehearsals on the bridge.
 */
import type { RehearsalAction } from '../../protocol/api.ts';
import type { MarkKind } from '../../protocol/mark.ts';
import { celsiusFromKelvin } from '../../protocol/units.ts';
import { advance } from '../physics/advance.ts';
import { createRig, totalPressurePa } from '../physics/rig-state.ts';
import type { Controls, RigState } from '../physics/rig-state.ts';
import { SeededRandom } from '../physics/seeded-random.ts';
import { Sensor } from '../physics/sensor.ts';
import { Helper } from './helper.ts';
import type { Scenario } from './scenario.ts';

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
  readonly event: MarkKind | null;
}

interface Effect {
  readonly mark: MarkKind;
  readonly controls: Partial<Controls>;
}

const EFFECTS: Readonly<Record<RehearsalAction, Effect>> = {
  pump_on: { mark: 'pump_on', controls: { pumpOn: true } },
  pump_off: { mark: 'pump_off', controls: { pumpOn: false } },
  ballast_open: { mark: 'ballast_opened', controls: { ballastOpen: true } },
  ballast_close: { mark: 'ballast_closed', controls: { ballastOpen: false } },
  isolate: { mark: 'isolated', controls: { isolated: true } },
  reopen: { mark: 'reopened', controls: { isolated: false } },
};

export class ScenarioRun {
  readonly #scenario: Scenario;
  readonly #sensor: Sensor;
  readonly #random: SeededRandom;
  readonly #helper: Helper | null;
  #rig: RigState;
  #controls: Controls;
  #begun = false;
  #finished = false;

  /** @param seed 0 to 2³² − 1: the same seed and actions give the same readings */
  constructor(scenario: Scenario, seed: number, { helper }: { readonly helper: boolean }) {
    this.#scenario = scenario;
    this.#rig = createRig(scenario.rig);
    this.#controls = { pumpOn: false, ballastOpen: scenario.ballastOpen, isolated: false };
    this.#random = new SeededRandom(seed);
    this.#sensor = new Sensor(scenario.sensor, this.#pressurePa(), this.#random);
    this.#helper = helper ? new Helper(scenario.script) : null;
  }

  /** Time of the latest reading, and of whatever is done before the next. */
  get elapsedS(): number {
    return this.#rig.elapsedS;
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
    const pressurePa = this.#sensor.read();
    return {
      elapsedS: this.elapsedS,
      pressurePa,
      temperatureC: this.#temperatureC(),
      event: this.#help(pressurePa),
    };
  }

  /** Works pump or valves now; null where they already stand so. */
  act(action: RehearsalAction): MarkKind | null {
    const { mark, controls } = EFFECTS[action];
    const changed = { ...this.#controls, ...controls };
    if (
      changed.pumpOn === this.#controls.pumpOn &&
      changed.ballastOpen === this.#controls.ballastOpen &&
      changed.isolated === this.#controls.isolated
    ) {
      return null;
    }
    this.#controls = changed;
    return mark;
  }

  #goOn(): void {
    this.#rig = advance(this.#rig, READING_INTERVAL_S, this.#controls);
    this.#sensor.follow(READING_INTERVAL_S, this.#pressurePa());
    if (this.elapsedS >= LONGEST_S) this.#finished = true;
  }

  #help(pressurePa: number | null): MarkKind | null {
    const due = this.#helper?.due(this.elapsedS, pressurePa) ?? null;
    if (due === 'end') this.#finished = true;
    return due === null || due === 'end' ? null : this.act(due);
  }

  #pressurePa(): number {
    return totalPressurePa(this.#rig, this.#scenario.sensorSection);
  }

  /** The sensor's own temperature: that of its surroundings, known to a tenth. */
  #temperatureC(): number {
    const metalK = this.#scenario.rig.sections[this.#scenario.sensorSection]?.metalTemperatureK;
    const trueC = celsiusFromKelvin(metalK ?? this.#scenario.rig.gasTemperatureK);
    return Math.round((trueC + 0.05 * this.#random.normal()) * 10) / 10;
  }
}
