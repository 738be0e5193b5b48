/** The sensor of a rehearsal: its running number, its own clock and its restarts, as bytes. */
import type { ScenarioReading } from '../../../simulators/scenarios/scenario-run.ts';
import { unheardReading } from '../unheard-reading.ts';

/** It was switched on so long before its first reading. */
const UPTIME_AT_START_S = 45;

export class SimulatedSensor {
  /** Any number does for the first boot: a rehearsal has a recording of its own. */
  readonly #firstBoot: number;
  #restarts = 0;
  #bootS = -UPTIME_AT_START_S;
  #sequence = 0;

  constructor(firstBoot: number) {
    this.#firstBoot = firstBoot;
  }

  /** What it sends of a moment. It counts readings that nobody hears too: ask for every one, in order. */
  send({ elapsedS, pressurePa, temperatureC, restarts }: ScenarioReading): Uint8Array {
    if (restarts > this.#restarts) {
      this.#restarts = restarts;
      this.#bootS = elapsedS;
      this.#sequence = 0;
    }
    const sequence = this.#sequence;
    this.#sequence += 1;
    return unheardReading({
      boot: (this.#firstBoot + restarts) & 0xffff,
      sequence,
      uptimeMs: Math.round((elapsedS - this.#bootS) * 1000),
      pressurePa,
      temperatureC,
    });
  }
}
