/** A job that a test plays to a bridge reading by reading, at whatever pressure it wants. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { paFromMicron } from '../../protocol/units.ts';
import { normal, seeded } from './invented-curves.ts';
import { PlayedSensors } from './played-sensors.ts';
import { runBridge } from './running-bridge.ts';
import type { RunningBridge } from './running-bridge.ts';

/** A gauge of the trade: half a per cent of noise. */
const NOISE = 0.005;
const SENSOR = 'aa:01';

export class PlayedJob {
  readonly sensors: PlayedSensors;
  readonly bridge: RunningBridge;
  readonly #random = seeded(7);
  /** Data time of the latest reading, s: the first one begins it. */
  nowS = -1;

  private constructor(sensors: PlayedSensors, bridge: RunningBridge) {
    this.sensors = sensors;
    this.bridge = bridge;
  }

  static async begin(name = 'Roof sensor'): Promise<PlayedJob> {
    const sensors = new PlayedSensors();
    const job = new PlayedJob(sensors, await runBridge({ sensors }));
    sensors.meet(SENSOR, name);
    return job;
  }

  /** So many seconds, a reading in each. @param micronAt s since the beginning of this part */
  play(lengthS: number, micronAt: (sinceS: number) => number): void {
    for (let sinceS = 1; sinceS <= lengthS; sinceS += 1) {
      this.nowS += 1;
      const noisy = micronAt(sinceS) * (1 + NOISE * normal(this.#random));
      this.sensors.measure(SENSOR, this.nowS, paFromMicron(noisy));
    }
  }

  /** Air that is pumped down to a floor with a time constant, from where it stands. */
  pullDown(lengthS: number, fromMicron: number, floorMicron: number, tauS: number): void {
    this.play(lengthS, (s) => floorMicron + (fromMicron - floorMicron) * Math.exp(-s / tauS));
  }

  mark(kind: MarkKind): Promise<unknown> {
    return this.#post('marks', { kind, elapsedS: this.nowS });
  }

  enter(fields: Partial<Sheet>): Promise<unknown> {
    return this.#post('sheet', { elapsedS: this.nowS, fields });
  }

  get sensor(): string {
    return SENSOR;
  }

  async #post(what: string, body: unknown): Promise<unknown> {
    const answer = await fetch(new URL(`api/recordings/1/${what}`, this.bridge.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${what}: ${await answer.text()}`);
    return answer.json();
  }
}
