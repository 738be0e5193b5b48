/** A scenario as a sensor lives through it: whoever asks says how much time has passed. */
import type { MarkKind } from '../../protocol/mark.ts';
import { ScenarioRun, type ScenarioReading } from '../scenarios/scenario-run.ts';
import type { Scenario } from '../scenarios/scenario.ts';

/** Something was done at the rig, at this time of the job. */
export interface Done {
  readonly kind: MarkKind;
  readonly elapsedS: number;
}

export interface JobMoment {
  readonly reading: ScenarioReading;
  /** Since the moment before. */
  readonly done: readonly Done[];
  /** Since the moment before the sensor has started anew. */
  readonly restarted: boolean;
  /** Nothing more happens: the last reading stays. */
  readonly finished: boolean;
}

export class PlayedJob {
  readonly #run: ScenarioRun;
  readonly #speed: number;
  #reading: ScenarioReading;
  #restarts = 0;
  #waiting: Done[] = [];

  /** @param speed seconds of the job in each second that passes */
  constructor(scenario: Scenario, seed: number, speed: number) {
    this.#run = new ScenarioRun(scenario, seed, { helper: true });
    this.#speed = speed;
    this.#reading = this.#next();
  }

  /** @param passedS seconds since its beginning; never less than before */
  at(passedS: number): JobMoment {
    this.advance(passedS);
    const restarted = this.#reading.restarts > this.#restarts;
    this.#restarts = this.#reading.restarts;
    return {
      reading: this.#reading,
      done: this.#waiting.splice(0),
      restarted,
      finished: this.#run.finished,
    };
  }

  /** Works out what happens until then, so that `at` answers at once. */
  advance(passedS: number): void {
    const wantedS = passedS * this.#speed;
    while (!this.#run.finished && this.#reading.elapsedS + 1 <= wantedS) {
      this.#reading = this.#next();
    }
  }

  #next(): ScenarioReading {
    const reading = this.#run.next();
    if (reading.event !== null) {
      this.#waiting.push({ kind: reading.event, elapsedS: reading.elapsedS });
    }
    return reading;
  }
}
