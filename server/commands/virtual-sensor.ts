/**
 * `npm run virtual-sensor -- --scenario NAME`: this computer's Bluetooth adapter becomes a sensor that
 * speaks the profile, on a simulated job.
 */
import { randomInt } from 'node:crypto';
import { ProblemError } from '../../protocol/problems.ts';
import { SERVICE_UUID } from '../../protocol/profile.ts';
import { AdapterHost, type AdapterEvent } from '../../simulators/sensor/adapter/adapter-host.ts';
import { surviveStumbles } from '../../simulators/sensor/adapter/library-faults.ts';
import { loadPeripheralLibrary } from '../../simulators/sensor/adapter/load-peripheral-library.ts';
import type { PeripheralLibrary } from '../../simulators/sensor/adapter/peripheral-library.ts';
import { startMeasuring } from '../../simulators/sensor/measuring.ts';
import { PlayedJob } from '../../simulators/sensor/played-job.ts';
import { SensorBehaviour } from '../../simulators/sensor/sensor-behaviour.ts';
import type { Scenario } from '../../simulators/scenarios/scenario.ts';
import { listRehearsals } from '../sources/rehearsal/list-rehearsals.ts';
import { scenarioNamed } from '../sources/rehearsal/scenario-named.ts';
import {
  readVirtualSensorOptions,
  VIRTUAL_SENSOR_HELP,
  VirtualSensorUsageError,
  type VirtualSensorOptions,
} from './virtual-sensor-options.ts';
import {
  sayAdapterEvent,
  sayDone,
  sayNoLibrary,
  sayNow,
  sayProblem,
} from './virtual-sensor-words.ts';

type Write = (line: string) => void;

/** Between two lines of the present state. */
const TELL_MS = 10_000;
/** The job is worked out in pieces: at a high speed a whole interval of it would make the reading late. */
const PIECE_MS = 50;

/**
 * @param argv what follows the command's name
 * @param write takes one line of standard output
 * @returns the exit status: 0, or 1 where an option was no good or there is no adapter to use
 */
export async function run(argv: readonly string[], write: Write): Promise<number> {
  try {
    const options = readVirtualSensorOptions(argv);
    if (options === null) write(VIRTUAL_SENSOR_HELP);
    else if (options.list) {
      for (const { name, place, situation } of listRehearsals()) {
        write(`${name}\n    ${place}. ${situation}`);
      }
    } else return await serve(options, write);
    return 0;
  } catch (error) {
    if (!(error instanceof VirtualSensorUsageError || error instanceof ProblemError)) throw error;
    console.error(`${error.message}; see --help`);
    return 1;
  }
}

async function serve(options: VirtualSensorOptions, write: Write): Promise<number> {
  const scenario = scenarioNamed(options.scenario, options.seed);
  const loaded = loadPeripheralLibrary();
  if (!loaded.ok) {
    const { problem, detail } = loaded;
    console.error(problem === 'no_library' ? sayNoLibrary(detail) : sayProblem(problem));
    return 1;
  }
  const suffix = randomInt(0x10000).toString(16).toUpperCase().padStart(4, '0');
  const served = new ServedJob(scenario, options, suffix, loaded.library, write);
  write(`Virtual sensor "${served.name}", job ${options.scenario}. Stop with Ctrl+C.`);
  const failure = served.start() ?? (await Promise.race([stopSignal(), served.unusable]));
  if (failure !== null) console.error(failure);
  await served.stop();
  // The library looks at its adapter every second for ever: nothing else ends this process.
  return process.exit(failure === null ? 0 : 1);
}

/** One sensor on one job, from its start to Ctrl+C. */
class ServedJob {
  readonly name: string;
  /** Resolves, with what is wrong, where only a new start can help. */
  readonly unusable: Promise<string>;
  #giveUp: (why: string) => void = () => undefined;
  readonly #library: PeripheralLibrary;
  readonly #write: Write;
  readonly #job: PlayedJob;
  readonly #behaviour: SensorBehaviour;
  readonly #host: AdapterHost;
  readonly #startMs = performance.now();
  #central: string | null = null;
  #finished = false;
  #latest: { elapsedS: number; pressurePa: number | null } = { elapsedS: 0, pressurePa: null };
  #stops: (() => void)[] = [];

  constructor(
    scenario: Scenario,
    { seed, speed, name }: VirtualSensorOptions,
    suffix: string,
    library: PeripheralLibrary,
    write: Write,
  ) {
    this.name = `${name} ${suffix}`;
    this.unusable = new Promise((resolve) => (this.#giveUp = resolve));
    this.#library = library;
    this.#write = write;
    this.#job = new PlayedJob(scenario, seed, speed);
    this.#behaviour = new SensorBehaviour({
      serial: `V-${suffix}`,
      boot: randomInt(0x10000),
      capabilities: {
        principle: 'simulated',
        rangeHighPa: scenario.sensor.rangeHighPa,
        intervalMs: 1000,
      },
    });
    this.#host = new AdapterHost({
      library,
      name: this.name,
      advertisedService: SERVICE_UUID,
      services: this.#behaviour.services,
      onEvent: (event) => this.#onEvent(event),
    });
    this.#behaviour.attach(this.#host);
  }

  /** @returns what is wrong where there is no adapter, or null */
  start(): string | null {
    const said = (what: string) => this.#write(`A packet from outside was not understood: ${what}`);
    this.#stops = [
      surviveStumbles(this.#library, said),
      startMeasuring({ behaviour: this.#behaviour, next: () => this.#next() }),
    ];
    const timers = [
      setInterval(() => this.#tell(), TELL_MS),
      setInterval(() => this.#job.advance(this.#passedS()), PIECE_MS),
    ];
    this.#stops.push(() => timers.forEach(clearInterval));
    try {
      this.#host.start();
      return null;
    } catch (error) {
      const detail = error instanceof Error ? error.message : String(error);
      const isForbidden = /EPERM|EACCES|not permitted/u.test(detail);
      return `${sayProblem(isForbidden ? 'no_permission' : 'no_adapter')} (${detail})`;
    }
  }

  async stop(): Promise<void> {
    for (const stop of this.#stops) stop();
    await this.#host.stop();
  }

  #next(): { pressurePa: number | null; temperatureC: number } {
    const { reading, done, restarted, finished } = this.#job.at(this.#passedS());
    const { elapsedS, pressurePa, temperatureC, batteryPercent } = reading;
    this.#latest = { elapsedS, pressurePa };
    this.#behaviour.batteryPercent = Math.round(batteryPercent);
    for (const it of done) this.#write(sayDone(it));
    if (restarted) {
      this.#write('The sensor starts anew, as this job has it.');
      this.#behaviour.restart();
      this.#host.disconnect();
    }
    if (finished && !this.#finished) {
      this.#write('The job is over: the sensor goes on showing its last pressure.');
    }
    this.#finished = finished;
    return { pressurePa, temperatureC };
  }

  #passedS(): number {
    return (performance.now() - this.#startMs) / 1000;
  }

  #onEvent(event: AdapterEvent): void {
    if (event.kind === 'connected') this.#central = event.central;
    else if (event.kind !== 'failed') this.#central = null;
    const text = sayAdapterEvent(event, this.name);
    if (event.kind === 'unavailable' && isForGood(event.state)) this.#giveUp(text);
    else this.#write(text);
  }

  #tell(): void {
    this.#write(sayNow(this.#latest.elapsedS, this.#latest.pressurePa, this.#central));
  }
}

/** An adapter that is off comes back; what the system doesn't offer, or allow, does not. */
function isForGood(state: string): boolean {
  return state === 'unsupported' || state === 'unauthorized';
}

/** After the library has begun: it ends the process on SIGINT unless somebody listens after it. */
function stopSignal(): Promise<null> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve(null));
    process.once('SIGTERM', () => resolve(null));
  });
}
