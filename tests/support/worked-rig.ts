/**
 * A simulated rig under a technician's hands, heard by a bridge as a sensor that is no rehearsal's: what is done to the
 * rig and what is marked on the page are two things, as in life.
 */
import type { RehearsalAction } from '../../protocol/api.ts';
import type { Scenario } from '../../simulators/scenarios/scenario.ts';
import { ScenarioRun } from '../../simulators/scenarios/scenario-run.ts';
import { PlayedSensors } from './played-sensors.ts';
import { runBridge, type RunningBridge } from './running-bridge.ts';

const SENSOR = 'aa:01';
const PORTION_S = 600;

export class WorkedRig {
  readonly bridge: RunningBridge;
  readonly #sensors: PlayedSensors;
  readonly #run: ScenarioRun;
  /** Readings so far. */
  count = 0;
  pressurePa: number | null = null;

  private constructor(bridge: RunningBridge, sensors: PlayedSensors, scenario: Scenario) {
    this.bridge = bridge;
    this.#sensors = sensors;
    this.#run = new ScenarioRun(scenario, 11, { helper: false });
  }

  static async begin(scenario: Scenario): Promise<WorkedRig> {
    const sensors = new PlayedSensors();
    return new WorkedRig(await runBridge({ sensors }), sensors, scenario);
  }

  /** The sensor is switched on. */
  meet(name: string): void {
    this.#sensors.meet(SENSOR, name);
  }

  act(...actions: readonly RehearsalAction[]): void {
    for (const action of actions) this.#run.act(action);
  }

  /** So many seconds of the job. */
  async go(lengthS: number): Promise<void> {
    for (let second = 1; second <= lengthS; second += 1) {
      this.#measure();
      // The page takes in what has come before more comes.
      if (second % PORTION_S === 0) await new Promise(setImmediate);
    }
  }

  /** @returns whether it came below within that time */
  async goBelow(pressurePa: number, mostS: number): Promise<boolean> {
    for (let second = 1; second <= mostS; second += 1) {
      this.#measure();
      if (this.pressurePa !== null && this.pressurePa < pressurePa) return true;
      if (second % PORTION_S === 0) await new Promise(setImmediate);
    }
    return false;
  }

  #measure(): void {
    const { elapsedS, pressurePa } = this.#run.next();
    this.pressurePa = pressurePa;
    this.#sensors.measure(SENSOR, elapsedS, pressurePa);
    this.count += 1;
  }
}
