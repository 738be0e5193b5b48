/** Readings from sensors over Bluetooth Low Energy. */
import type { ProblemCode } from '../../../protocol/problems.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import type { Source, SourceListener } from '../source.ts';
import { Backfill } from './backfill.ts';
import { backoffMs } from './backoff.ts';
import type { FromRadio, RadioEnd, SessionReport } from './messages.ts';
import { monotonicMs } from './monotonic-clock.ts';
import { RadioProcess } from './radio-process.ts';
import { GONE_AFTER_MS, shownState, type RadioFacts, type SensorFacts } from './radio-state.ts';
import { SleepWatch } from './sleep-watch.ts';
import { RADIO_TIMING, type RadioTiming } from './timing.ts';

export interface RadioSourceOptions {
  readonly id?: string;
  /** For the labels of states: milliseconds since 1970 UTC. Readings carry the monotonic clock. */
  readonly wallClock?: () => number;
  readonly timing?: Partial<RadioTiming>;
  /** Added to the environment of the process that holds the radio. */
  readonly childEnvironment?: Readonly<Record<string, string>>;
  /** For Node in that process, after the TypeScript loader. */
  readonly childExecArguments?: readonly string[];
  readonly log?: (text: string) => void;
}

/** Between two words about readings that are being fetched, ms. */
const TELL_EVERY_MS = 500;

/** As many as a state may list. */
const MOST_SENSORS = 64;

type Dated = Pick<SourceState, 'phase' | 'sinceMs'>;

const UNHEARD: SensorFacts = {
  name: '',
  phase: 'lost',
  enteredMs: 0,
  problem: null,
  batteryPercent: null,
  signalDbm: null,
  missed: 0,
  fetching: false,
};

export class RadioSource implements Source {
  readonly id: string;

  readonly #timing: RadioTiming;
  readonly #options: RadioSourceOptions;
  readonly #wallClock: () => number;
  readonly #log: (text: string) => void;
  readonly #sleep: SleepWatch;
  readonly #sensors = new Map<string, SensorFacts>();
  /** Identities as they were delivered, so that one is delivered again only when it has changed. */
  readonly #introduced = new Map<string, string>();
  readonly #backfill = new Backfill((id, stretch) => this.#process?.fetch(id, stretch));
  #chosen: readonly string[] = [];
  #toldMissingMs = 0;
  #gone: NodeJS.Timeout | null = null;
  #listener: SourceListener | null = null;
  #process: RadioProcess | null = null;
  #relaunch: NodeJS.Timeout | null = null;
  #stopped: Promise<void> | null = null;
  #radio: RadioFacts['radio'] = 'starting';
  #restarted = false;
  #crashes = 0;
  #toldSleepMs = 0;
  #state: SourceState | null = null;

  constructor(options: RadioSourceOptions) {
    this.id = options.id ?? 'radio';
    this.#options = options;
    this.#timing = { ...RADIO_TIMING, ...options.timing };
    this.#wallClock = options.wallClock ?? Date.now;
    this.#sleep = new SleepWatch(this.#wallClock, monotonicMs);
    this.#log = options.log ?? (() => undefined);
  }

  /** The process that holds the radio at the moment. */
  get pid(): number | undefined {
    return this.#process?.pid;
  }

  start(listener: SourceListener): void {
    if (this.#listener !== null || this.#stopped !== null) return;
    this.#listener = listener;
    this.#publish();
    this.#launch();
  }

  /** Sensors without our profile that a person has chosen; in place of all before. */
  choose(sensorIds: readonly string[]): void {
    this.#chosen = sensorIds;
    this.#process?.choose(sensorIds);
  }

  stop(): Promise<void> {
    this.#listener = null;
    for (const timer of [this.#relaunch, this.#gone]) if (timer !== null) clearTimeout(timer);
    this.#stopped ??= this.#process?.stop() ?? Promise.resolve();
    return this.#stopped;
  }

  #launch(): void {
    const { childEnvironment = {}, childExecArguments = [] } = this.#options;
    this.#process = new RadioProcess({
      timing: this.#timing,
      environment: childEnvironment,
      execArguments: childExecArguments,
      onMessage: (message) => this.#onMessage(message),
      onEnd: (why, detail) => this.#onEnd(why, detail),
      log: this.#log,
    });
    this.#process.choose(this.#chosen);
  }

  #onMessage(message: FromRadio): void {
    switch (message.type) {
      case 'adapter':
        this.#radio = message.on ? 'on' : 'adapter_off';
        break;
      case 'session':
        this.#onSession(message);
        break;
      case 'battery':
        this.#update(message.sensorId, { batteryPercent: message.percent });
        break;
      case 'signal':
        this.#update(message.sensorId, { signalDbm: message.dbm });
        break;
      case 'sensor': {
        const { identity } = message;
        const asDelivered = JSON.stringify(identity);
        if (this.#introduced.get(identity.id) === asDelivered) return;
        this.#introduced.set(identity.id, asDelivered);
        this.#listener?.sensor(identity);
        return;
      }
      case 'reading': {
        this.#crashes = 0;
        const { sensorId, bytes, arrivedMs, fetched } = message;
        const allSleepMs = this.#sleep.sleptMs();
        const sleptMs = allSleepMs - this.#toldSleepMs;
        this.#toldSleepMs = allSleepMs;
        const awakeMs = arrivedMs + allSleepMs;
        this.#listener?.reading({ sensorId, bytes, arrivedMs: awakeMs, fetched, sleptMs });
        this.#backfill.reading(sensorId, bytes, fetched);
        if (!this.#tellMissing(sensorId)) return;
        break;
      }
      case 'store':
        this.#backfill.connected(
          message.sensorId,
          message.depth,
          this.#listener?.heardBefore?.(message.sensorId),
        );
        this.#tellMissing(message.sensorId);
        break;
      case 'fetched':
        this.#backfill.ended(message.sensorId, message.from, message.whole);
        this.#tellMissing(message.sensorId);
        break;
      case 'log':
      case 'pong':
      case 'end':
        return;
    }
    this.#publish();
  }

  #onSession({ sensorId, name, phase, problem }: SessionReport): void {
    this.#restarted = false;
    if (phase === 'lost' && problem === 'sensor_not_chosen') {
      this.#sensors.delete(sensorId);
      return;
    }
    if (phase === 'lost' || phase === 'connecting') this.#backfill.disconnected(sensorId);
    const before = this.#sensors.get(sensorId)?.problem ?? null;
    // A sensor that says no is heard again long before it is asked again: the reason stands till then.
    const stands = before === 'sensor_refuses' || before === 'sensor_not_understood';
    const isAgain = phase === 'found' && problem === null && stands;
    this.#update(sensorId, { name, phase, problem: isAgain ? before : problem });
  }

  /** @returns whether there is anything new to say: not every single reading that was fetched is */
  #tellMissing(sensorId: string): boolean {
    const missing = this.#backfill.missing(sensorId);
    const { missed, fetching } = this.#sensors.get(sensorId) ?? UNHEARD;
    const nowMs = this.#wallClock();
    const isSoon = Math.abs(nowMs - this.#toldMissingMs) < TELL_EVERY_MS;
    if (fetching === missing.fetching && (missed === missing.missed || isSoon)) return false;
    this.#toldMissingMs = nowMs;
    this.#update(sensorId, missing);
    return true;
  }

  #update(sensorId: string, facts: Partial<SensorFacts>): void {
    const before = this.#sensors.get(sensorId) ?? UNHEARD;
    const isNew = facts.phase !== undefined && facts.phase !== before.phase;
    const after = { ...before, ...facts, ...(isNew ? { enteredMs: this.#wallClock() } : {}) };
    // A map keeps the order in which keys came: by their present phase, here.
    if (after.phase !== before.phase) this.#sensors.delete(sensorId);
    this.#sensors.set(sensorId, after);
    if (this.#sensors.size > MOST_SENSORS) this.#forgetOldest();
  }

  /** The one that has been lost for longest: who sends from ever new addresses must not fill the memory. */
  #forgetOldest(): void {
    for (const [id, { phase }] of this.#sensors) {
      if (phase !== 'lost') continue;
      this.#sensors.delete(id);
      this.#introduced.delete(id);
      this.#backfill.forget(id);
      return;
    }
  }

  #onEnd(why: RadioEnd | 'crashed', detail: string): void {
    this.#process = null;
    if (this.#stopped !== null) return;
    this.#log(`the radio ended: ${why}, ${detail}`);
    this.#relaunch = setTimeout(() => this.#launch(), this.#waitAfter(why));
    this.#publish();
  }

  /** Notes what an end means, and how long to wait before starting again. */
  #waitAfter(why: RadioEnd | 'crashed'): number {
    switch (why) {
      case 'no_adapter':
      case 'adapter_off':
        this.#radio = why;
        return this.#timing.adapterRetryMs;
      case 'no_bluetooth':
      case 'no_permission':
      case 'no_radio_library':
        this.#radio = why;
        return this.#timing.rareRetryMs;
      case 'adapter_returned':
        this.#loseAll('sensor_lost');
        return 0;
      case 'crashed':
      case 'unresponsive':
      case 'stopped': {
        this.#crashes += 1;
        this.#restarted = true;
        this.#loseAll('radio_restarted');
        const { retryMs, longestRetryMs } = this.#timing;
        const waits = { firstMs: retryMs, longestMs: longestRetryMs };
        return backoffMs(waits, this.#crashes, Math.random());
      }
    }
  }

  #loseAll(problem: ProblemCode): void {
    this.#radio = 'starting';
    for (const id of [...this.#sensors.keys()]) {
      this.#backfill.disconnected(id);
      this.#update(id, { phase: 'lost', problem });
    }
  }

  #publish(): void {
    const facts = { radio: this.#radio, restarted: this.#restarted, sensors: this.#sensors };
    const shown = shownState(facts, this.#wallClock());
    this.#lookAgainForGone();
    const before = this.#state;
    const sinceMs = this.#since(shown, before);
    const sensors = shown.sensors.map((sensor) => {
      const known = before?.sensors.find(({ sensorId }) => sensorId === sensor.sensorId);
      return { ...sensor, sinceMs: this.#since(sensor, known) };
    });
    const about = { id: this.id, kind: 'radio', clockRate: 1 } as const;
    const state: SourceState = { ...about, ...shown, sinceMs, sensors };
    if (JSON.stringify(state) === JSON.stringify(before)) return;
    this.#state = state;
    this.#listener?.state(state);
  }

  /** Being gone begins by itself: nobody says anything then. */
  #lookAgainForGone(): void {
    if (this.#gone !== null || ![...this.#sensors.values()].some(({ phase }) => phase === 'lost')) {
      return;
    }
    this.#gone = setTimeout(() => {
      this.#gone = null;
      this.#publish();
    }, GONE_AFTER_MS / 10).unref();
  }

  #since(now: Pick<SourceState, 'phase'>, before: Dated | null | undefined): number {
    return before?.phase === now.phase ? before.sinceMs : this.#wallClock();
  }
}
