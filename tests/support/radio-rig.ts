/** A radio of the bridge and sensors around it, on a virtual air, and an ear for what it delivers. */
import type { SensorIdentity } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { RadioSource } from '../../server/sources/radio/radio-source.ts';
import type { RadioTiming } from '../../server/sources/radio/timing.ts';
import type { RawReading, SourceListener } from '../../server/sources/source.ts';
import {
  serveController,
  type ServedController,
} from '../../simulators/sensor/serve-controller.ts';
import { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import type { VirtualController } from '../../simulators/sensor/virtual-controller.ts';
import type { VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';

/** Shorter than in earnest, and long enough for a computer that is busy with other tests. */
const TIMING: Partial<RadioTiming> = {
  adapterMs: 2000,
  connectMs: 700,
  answerMs: 700,
  silenceMs: 600,
  silenceGraceMs: 300,
  batteryMs: 200,
  signalMs: 200,
  searchMs: 500,
  searchRestMs: 100,
  retryMs: 20,
  longestRetryMs: 100,
  heartbeatMs: 200,
  heartbeatLimitMs: 2000,
  adapterRetryMs: 100,
  rareRetryMs: 100,
};

export interface RigOptions {
  readonly library?: string;
  readonly execArguments?: readonly string[];
}

/** Everything that the source delivered, and a way to wait for more of it. */
export class Ear implements SourceListener {
  readonly identities: SensorIdentity[] = [];
  readonly readings: RawReading[] = [];
  readonly states: SourceState[] = [];
  readonly log: string[] = [];
  readonly order: string[] = [];
  readonly #waiting = new Set<() => void>();

  sensor(identity: SensorIdentity): void {
    this.identities.push(identity);
    this.#heard('sensor');
  }
  reading(raw: RawReading): void {
    this.readings.push(raw);
    this.#heard('reading');
  }
  mark(): void {
    this.#heard('mark');
  }
  state(state: SourceState): void {
    this.states.push(state);
    this.#heard('state');
  }
  logged(text: string): void {
    this.log.push(text);
    this.#heard('log');
  }

  /** Forgets what it has heard. */
  clear(): void {
    for (const list of [this.identities, this.readings, this.states, this.log, this.order]) {
      list.length = 0;
    }
  }

  /** Resolves when the condition holds, looked at whenever something is delivered. */
  until(what: string, holds: () => boolean, limitMs = 10_000): Promise<void> {
    return new Promise((resolve, reject) => {
      const look = (): void => {
        if (!holds()) return;
        clearTimeout(timer);
        this.#waiting.delete(look);
        resolve();
      };
      const timer = setTimeout(() => {
        this.#waiting.delete(look);
        const phases = this.states.map(({ phase, problem }) => `${phase} ${problem ?? ''}`);
        reject(new Error(`no ${what}: ${[...phases, ...this.log].join('\n')}`));
      }, limitMs);
      this.#waiting.add(look);
      look();
    });
  }

  /** The next state that is in this phase, counted from this call. */
  phase(phase: SourceState['phase'], problem?: SourceState['problem']): Promise<void> {
    const from = this.states.length;
    return this.until(`${phase} ${problem ?? ''}`, () =>
      this.states
        .slice(from)
        .some(
          (state) => state.phase === phase && (problem === undefined || state.problem === problem),
        ),
    );
  }

  #heard(what: string): void {
    this.order.push(what);
    for (const look of [...this.#waiting]) look();
  }
}

export class RadioRig {
  readonly air: VirtualAir;
  readonly adapter: VirtualController;
  readonly served: ServedController;
  readonly source: RadioSource;
  readonly ear = new Ear();

  private constructor(
    air: VirtualAir,
    adapter: VirtualController,
    served: ServedController,
    options: RigOptions,
  ) {
    this.air = air;
    this.adapter = adapter;
    this.served = served;
    const library = options.library === undefined ? {} : { EBBLINE_RADIO_LIBRARY: options.library };
    this.source = new RadioSource({
      timing: TIMING,
      childEnvironment: { ...served.environment, ...library },
      childExecArguments: [...served.execArguments, ...(options.execArguments ?? [])],
      log: (text) => this.ear.logged(text),
    });
  }

  static async create(options: RigOptions = {}): Promise<RadioRig> {
    const air = new VirtualAir();
    const adapter = air.createController();
    return new RadioRig(air, adapter, await serveController(adapter), options);
  }

  start(): void {
    this.source.start(this.ear);
  }

  /** Starts, and resolves when this sensor's readings are listened to. */
  async connectTo(sensor: VirtualSensor): Promise<void> {
    this.start();
    await sensor.whenSubscribed();
  }

  async close(): Promise<void> {
    await this.source.stop();
    await this.served.close();
    this.air.close();
  }
}
