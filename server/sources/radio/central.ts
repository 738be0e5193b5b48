/**
 * Bluetooth's central role: follows the adapter's state, searches for sensors and keeps a session
 * with each. Sensors are connected one at a time, because a connection that is pending blocks every
 * other one.
 */
import { ENVIRONMENTAL_SENSING_UUID, SERVICE_UUID } from '../../../protocol/profile.ts';
import type { Stretch } from '../number-set.ts';
import { DeadlineError, pause } from './deadline.ts';
import { hostUuid, type HostLibrary, type HostPeripheral } from './host-library.ts';
import type { FromRadio, RadioEnd } from './messages.ts';
import { monotonicMs } from './monotonic-clock.ts';
import { Nearby } from './nearby.ts';
import { RetryBook } from './retry-book.ts';
import { Scanner } from './scanner.ts';
import { SensorSession } from './sensor-session.ts';
import type { SessionEnd } from './session-end.ts';
import type { RadioTiming } from './timing.ts';

export interface CentralOptions {
  readonly host: HostLibrary;
  readonly timing: RadioTiming;
  readonly report: (message: FromRadio) => void;
  /** What this process holds in memory, bytes. */
  readonly heapBytes?: () => number;
}

interface End {
  readonly why: RadioEnd;
  readonly detail: string;
}

/**
 * So many sessions in a row without an answer, and no sensor heard meanwhile, look like a stuck host
 * library. A sensor that answers and refuses, or is mute while another is heard, is its own matter.
 */
const STUCK_AFTER = 5;

/**
 * The libraries remember everybody who ever advertised (some 1.2 kB each): in a crowd of phones that change
 * their addresses a process of days grows. A new one costs two seconds, and no reading of a sensor that
 * keeps them. A setting of ours.
 */
const LARGEST_HEAP_BYTES = 200e6;

export class Central {
  /** Resolves when this central can do no more, with why. */
  readonly ended: Promise<End>;

  readonly #options: CentralOptions;
  readonly #scanner: Scanner;
  readonly #sessions = new Map<string, { readonly session: SensorSession; over: Promise<void> }>();
  readonly #retries: RetryBook;
  readonly #nearby: Nearby;
  readonly #heapBytes: () => number;
  #chosen: ReadonlySet<string> = new Set();
  readonly #adapterTimer: NodeJS.Timeout;
  #offTimer: NodeJS.Timeout | null = null;
  #end: (end: End) => void = () => undefined;
  /** Aborted when the adapter goes off; null while it isn't on. */
  #on: AbortController | null = null;
  #wasOn = false;
  #unanswered = 0;
  /** Cuts the pause between two searches short. */
  #rest = new AbortController();

  constructor(options: CentralOptions) {
    const { host, timing } = options;
    this.#options = options;
    this.#heapBytes = options.heapBytes ?? (() => process.memoryUsage().heapUsed);
    this.#scanner = new Scanner(host, timing.answerMs);
    this.#retries = new RetryBook(timing, Math.random);
    this.#nearby = new Nearby(timing.foundMs, options.report);
    this.ended = new Promise((resolve) => {
      this.#end = (end) => resolve(end);
    });
    this.#adapterTimer = setTimeout(() => {
      this.#end({ why: 'no_adapter', detail: 'the adapter says nothing of its state' });
    }, timing.adapterMs);
    host.on('warning', (text) => this.#onWarning(String(text)));
    // The libraries begin when somebody listens to their state, and only then.
    host.on('stateChange', (state) => this.#onState(String(state)));
  }

  /** Sensors without our profile that a person has chosen; in place of all before. */
  choose(ids: readonly string[]): void {
    this.#chosen = new Set(ids);
  }

  /** Asks a sensor for readings that were missed; without a session nothing comes of it. */
  fetch(id: string, stretch: Stretch): void {
    this.#sessions.get(id)?.session.fetch(stretch);
  }

  /** Disconnects everything. */
  async stop(): Promise<void> {
    clearTimeout(this.#adapterTimer);
    if (this.#offTimer !== null) clearTimeout(this.#offTimer);
    this.#switchOff('the radio is stopping');
    await Promise.all([...this.#sessions.values()].map(({ over }) => over));
    this.#end({ why: 'stopped', detail: '' });
  }

  #onState(state: string): void {
    clearTimeout(this.#adapterTimer);
    if (state === 'poweredOn') this.#switchOn();
    else if (state === 'unsupported') this.#end({ why: 'no_bluetooth', detail: state });
    else if (state === 'unauthorized') this.#end({ why: 'no_permission', detail: state });
    else this.#onOff(`the adapter is ${state}`);
  }

  /** Switched off, or pulled out: the libraries don't tell the two apart, nor see another one come. */
  #onOff(detail: string): void {
    const { report, timing } = this.#options;
    this.#switchOff(detail);
    report({ type: 'adapter', on: false });
    this.#offTimer ??= setTimeout(
      () => this.#end({ why: 'adapter_off', detail }),
      timing.adapterOffMs,
    );
  }

  /** How the first library says that it couldn't open the adapter; it says nothing more after that. */
  #onWarning(text: string): void {
    this.#options.report({ type: 'log', text });
    if (this.#wasOn || !text.includes('Initialization of USB device failed')) return;
    const isForbidden = /EPERM|EACCES|not permitted/.test(text);
    this.#end({ why: isForbidden ? 'no_permission' : 'no_adapter', detail: text });
  }

  #switchOn(): void {
    if (this.#offTimer !== null) clearTimeout(this.#offTimer);
    this.#offTimer = null;
    // The libraries miss disconnects and lose buffer credits when an adapter goes off and on.
    if (this.#wasOn) {
      this.#end({ why: 'adapter_returned', detail: '' });
      return;
    }
    this.#wasOn = true;
    this.#on = new AbortController();
    this.#options.report({ type: 'adapter', on: true });
    void this.#search(this.#on.signal);
  }

  #switchOff(reason: string): void {
    this.#on?.abort(new Error(reason));
    this.#on = null;
  }

  /** Goes on until the adapter goes off or no longer obeys. */
  async #search(on: AbortSignal): Promise<void> {
    const { timing } = this.#options;
    try {
      for (;;) {
        const found = await this.#scanner.find((it) => this.#isWanted(it), timing.searchMs, on);
        this.#nearby.forget(monotonicMs());
        if (this.#heapBytes() > LARGEST_HEAP_BYTES) {
          this.#end({ why: 'unresponsive', detail: 'the host library holds too much memory' });
          return;
        }
        if (found !== null) await this.#connect(found, on);
        else if (this.#sessions.size > 0) await this.#pauseSearch(on);
      }
    } catch (error) {
      if (on.aborted) return;
      const detail = error instanceof Error ? error.message : String(error);
      if (!(error instanceof DeadlineError)) throw error;
      this.#end({ why: 'unresponsive', detail });
    }
  }

  /** A search takes airtime from the readings; a session's end is reason enough for one. */
  async #pauseSearch(on: AbortSignal): Promise<void> {
    this.#rest = new AbortController();
    const either = AbortSignal.any([on, this.#rest.signal]);
    await pause(this.#options.timing.searchRestMs, either).catch((error: unknown) => {
      if (on.aborted) throw error;
    });
  }

  /** Asked of everybody who is heard. */
  #isWanted(peripheral: HostPeripheral): boolean {
    const nowMs = monotonicMs();
    if (this.#sessions.has(peripheral.id)) return false;
    const isChosen = speaksProfile(peripheral) || this.#chosen.has(peripheral.id);
    this.#nearby.heard(peripheral, nowMs, isChosen ? null : 'sensor_not_chosen');
    if (!isChosen) return false;
    return this.#retries.mayTry(peripheral.id, nowMs);
  }

  /** Resolves when the sensor is connected or has failed; the session goes on by itself. */
  #connect(peripheral: HostPeripheral, adapter: AbortSignal): Promise<void> {
    const { timing, report } = this.#options;
    return new Promise((resolve) => {
      const onSubscribed = (): void => resolve();
      const onHeard = (): void => {
        this.#unanswered = 0;
      };
      const session = new SensorSession({
        peripheral,
        timing,
        adapter,
        report,
        onSubscribed,
        onHeard,
      });
      const over = session.run().then((end) => {
        this.#sessions.delete(peripheral.id);
        this.#learn(peripheral.id, end);
        this.#rest.abort();
        resolve();
      });
      this.#sessions.set(peripheral.id, { session, over });
      this.#nearby.taken(peripheral.id);
    });
  }

  #learn(id: string, end: SessionEnd): void {
    const { reason, detail } = end;
    this.#options.report({ type: 'log', text: `sensor ${id}: ${reason}, ${detail}` });
    this.#retries.note(id, end, monotonicMs());
    this.#unanswered = reason === 'unanswered' ? this.#unanswered + 1 : 0;
    // A new process would cut off whoever is connected.
    if (this.#unanswered >= STUCK_AFTER && this.#sessions.size === 0) {
      this.#end({ why: 'unresponsive', detail });
    }
  }
}

/** One that hides what it offers is asked: the search was for those that offer either. */
function speaksProfile({ advertisement: { serviceUuids } }: HostPeripheral): boolean {
  const offered = serviceUuids ?? [];
  return offered.includes(hostUuid(SERVICE_UUID)) || !offered.includes(ENVIRONMENTAL_SENSING_UUID);
}
