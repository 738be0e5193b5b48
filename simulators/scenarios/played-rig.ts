/** A rig with a sensor on it, going on in steps under a technician's hands. */
import type { RehearsalAction } from '../../protocol/api.ts';
import type { MarkKind } from '../../protocol/mark.ts';
import { celsiusFromKelvin } from '../../protocol/units.ts';
import { advance } from '../physics/advance.ts';
import { controlsAsFound, type Controls } from '../physics/controls.ts';
import { totalOf } from '../physics/gases.ts';
import { createRig, partialPressuresPa, type RigState } from '../physics/rig-state.ts';
import type { SeededRandom } from '../physics/seeded-random.ts';
import { Sensor, type SensorSetup } from '../physics/sensor.ts';
import { warmedK } from '../physics/surroundings.ts';
import { done } from './actions.ts';
import type { Placed } from './scenario.ts';

interface PlayedRigOptions {
  readonly sensor: SensorSetup;
  readonly random: SeededRandom;
  readonly ballastOpen: boolean;
  readonly nitrogenPa: number;
}

export class PlayedRig {
  readonly #sensorSection: number;
  readonly #sensor: Sensor;
  readonly #nitrogenPa: number;
  #rig: RigState;
  #controls: Controls;

  constructor({ rig, sensorSection }: Placed, options: PlayedRigOptions) {
    this.#rig = createRig(rig);
    this.#sensorSection = sensorSection;
    this.#sensor = new Sensor(options.sensor, this.#partialPa(), options.random);
    this.#nitrogenPa = options.nitrogenPa;
    this.#controls = { ...controlsAsFound(rig), ballastOpen: options.ballastOpen };
  }

  get elapsedS(): number {
    return this.#rig.elapsedS;
  }

  /** Temperature of the metal where the sensor sits, °C. */
  get temperatureC(): number {
    const { sections, surroundings } = this.#rig.setup;
    const startK = sections[this.#sensorSection]?.metalTemperatureK ?? surroundings.temperatureK;
    return celsiusFromKelvin(startK + warmedK(surroundings, this.#rig.elapsedS));
  }

  goOn(durationS: number): void {
    this.#rig = advance(this.#rig, durationS, this.#controls);
    this.#sensor.follow(durationS, this.#partialPa());
  }

  /** Pa, or null over range. */
  read(): number | null {
    return this.#sensor.read();
  }

  /** The same without noise and steps. */
  get quietPa(): number | null {
    return this.#sensor.quietPa;
  }

  /** What there really is where the sensor sits. */
  get truePa(): number {
    return totalOf(this.#partialPa());
  }

  /** The mark that it leaves, or null where everything already stood so. */
  act(action: RehearsalAction): MarkKind | null {
    const hands = { controls: this.#controls, rig: this.#rig };
    const after = done(action, hands, this.#nitrogenPa);
    if (!after) return null;
    this.#controls = after.controls;
    this.#rig = after.rig;
    return after.mark;
  }

  #partialPa() {
    return partialPressuresPa(this.#rig, this.#sensorSection);
  }
}
