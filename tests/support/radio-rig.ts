/** A radio of the bridge and sensors around it, on a virtual air, and an ear for what it delivers. */
import { RadioSource } from '../../server/sources/radio/radio-source.ts';
import type { RadioTiming } from '../../server/sources/radio/timing.ts';
import {
  serveController,
  type ServedController,
} from '../../simulators/sensor/serve-controller.ts';
import { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import type { VirtualController } from '../../simulators/sensor/virtual-controller.ts';
import { SourceEar } from './source-ear.ts';

/** Shorter than in earnest, and long enough for a computer that is busy with other tests. */
const TIMING: Partial<RadioTiming> = {
  adapterMs: 2000,
  connectMs: 700,
  answerMs: 1000,
  introductionMs: 4000,
  silenceMs: 600,
  silenceGraceMs: 300,
  batteryMs: 200,
  signalMs: 200,
  searchMs: 500,
  searchRestMs: 100,
  retryMs: 20,
  longestRetryMs: 100,
  longestRefusalMs: 100,
  heartbeatMs: 200,
  heartbeatLimitMs: 2000,
  adapterOffMs: 500,
  adapterRetryMs: 100,
  rareRetryMs: 100,
};

export interface RigOptions {
  readonly library?: string;
  readonly execArguments?: readonly string[];
  /** The tests' own where it isn't said. */
  readonly timing?: Partial<RadioTiming>;
  /** That of the computer, where a test sets it. */
  readonly wallClock?: () => number;
}

export class RadioRig {
  readonly air: VirtualAir;
  readonly adapter: VirtualController;
  readonly served: ServedController;
  readonly source: RadioSource;
  readonly ear = new SourceEar();
  readonly #options: RigOptions;

  private constructor(
    air: VirtualAir,
    adapter: VirtualController,
    served: ServedController,
    options: RigOptions,
  ) {
    this.air = air;
    this.adapter = adapter;
    this.served = served;
    this.#options = options;
    this.source = this.again();
  }

  /** Another radio on the same adapter, as after the bridge was started again. */
  again(): RadioSource {
    const { library, execArguments = [], timing = TIMING, wallClock = Date.now } = this.#options;
    const { environment, execArguments: served } = this.served;
    const chosen = library === undefined ? {} : { EBBLINE_RADIO_LIBRARY: library };
    return new RadioSource({
      timing,
      wallClock,
      childEnvironment: { ...environment, ...chosen },
      childExecArguments: [...served, ...execArguments],
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

  async close(): Promise<void> {
    await this.source.stop();
    await this.served.close();
    this.air.close();
  }
}
