/**
 * What a sensor of our profile does, whatever serves it: a virtual air or a real adapter. It measures
 * only when it is told to, and keeps what it has measured whether anybody listens or not.
 */
import {
  CAPABILITIES_FIELDS,
  IDENTIFY_FIELDS,
  READING_FIELDS,
  READING_UUID,
  SET_INTERVAL_FIELDS,
} from '../../protocol/profile.ts';
import { decode, encode } from '../../protocol/profile-codec.ts';
import { ATT_ERROR } from './att-server.ts';
import type { Deviations, Reading } from './deviations.ts';
import { ReadingStore } from './reading-store.ts';
import { RecordAccessServer } from './record-access-server.ts';
import { INVENTED_CAPABILITIES, sensorServices, type Capabilities } from './sensor-services.ts';
import type { PeripheralHost, ServiceDefinition } from './service-definition.ts';

export interface SensorBehaviourOptions {
  readonly serial?: string;
  readonly batteryPercent?: number;
  /** Boot id at its first start; 1 where not said. */
  readonly boot?: number;
  /** A `bufferDepth` of 0 makes a sensor without stored readings. */
  readonly capabilities?: Partial<Capabilities>;
  /** Monotonic milliseconds that its uptime counts. */
  readonly clock?: () => number;
  /** Number and clock at its first start, for what happens where they wrap; 0 where not said. */
  readonly startsAt?: { readonly sequence: number; readonly uptimeMs: number };
  /** Whether stored readings outlive a restart. */
  readonly keepsOverRestart?: boolean;
  /** Between two stored readings of a report, for tests of what happens meanwhile. */
  readonly reportPauseMs?: number;
  /** Whether an aborted report answers 'not completed' before the abort answers. */
  readonly tellsOfAbortedReport?: boolean;
  /** The rules that it breaks. */
  readonly deviations?: Deviations;
}

/** A reading as it was sent, and whether anybody had subscribed to it. */
export interface SentReading {
  readonly sequence: number;
  readonly bytes: Uint8Array;
  readonly delivered: boolean;
}

const NO_FLAGS: Reading['flags'] = {
  overRange: false,
  underRange: false,
  warmingUp: false,
  fault: false,
  timeReset: false,
};

export class SensorBehaviour {
  batteryPercent: number;
  /** For how many seconds it was last asked to show which one it is. */
  identifyS = 0;
  readonly services: readonly ServiceDefinition[];

  readonly #options: SensorBehaviourOptions;
  readonly #deviations: Deviations;
  readonly #clock: () => number;
  readonly #store: ReadingStore;
  #host: PeripheralHost | undefined;
  #bootMs: number;
  #boot: number;
  #sequence: number;
  #capabilities: Capabilities;
  /** The interval that it measures at; a rule breaker's may differ from the one that it claims. */
  #pacedMs: number;
  #latest: Uint8Array | null = null;
  #subscribed = false;
  #waiting: (() => void)[] = [];

  constructor(options: SensorBehaviourOptions = {}) {
    this.#options = options;
    this.#deviations = options.deviations ?? {};
    this.#clock = options.clock ?? (() => performance.now());
    const { sequence, uptimeMs } = options.startsAt ?? { sequence: 0, uptimeMs: 0 };
    this.#sequence = sequence;
    this.#bootMs = this.#clock() - uptimeMs;
    this.#boot = options.boot ?? 1;
    this.#capabilities = { ...INVENTED_CAPABILITIES, ...options.capabilities };
    this.#pacedMs = Math.max(this.#capabilities.intervalMs, 1);
    this.#store = new ReadingStore(this.#deviations.keeps ?? this.#capabilities.bufferDepth);
    this.batteryPercent = options.batteryPercent ?? 87;
    const services = this.#createServices();
    this.services = this.#deviations.services?.(services) ?? services;
  }

  /** From now on it is served by this host. */
  attach(host: PeripheralHost): void {
    this.#host = host;
  }

  get intervalMs(): number {
    return this.#capabilities.intervalMs;
  }

  /** What passes between two measurements. */
  get measuringIntervalMs(): number {
    return this.#pacedMs * (this.#deviations.slowness ?? 1);
  }

  get subscribed(): boolean {
    return this.#subscribed;
  }

  /** Resolves when somebody begins to listen after this call, whoever may be listening now. */
  nextSubscription(): Promise<void> {
    return new Promise((done) => this.#waiting.push(done));
  }

  /**
   * Takes a reading, keeps and sends it; null is 'not known', as near atmospheric pressure.
   * @param lateMs since the moment that the reading is of
   */
  measure(pressurePa: number | null, more: Partial<Reading> = {}, lateMs = 0): SentReading {
    const sequence = this.#sequence;
    this.#sequence = (sequence + 1) % 2 ** 32;
    const { reading, readingBytes, notifications = 1 } = this.#deviations;
    const right: Reading = {
      flags: { ...NO_FLAGS, overRange: pressurePa === null },
      boot: this.#boot,
      sequence,
      uptimeMs: Math.max(0, Math.round(this.#clock() - this.#bootMs - lateMs)) % 2 ** 32,
      pressurePa,
      temperatureC: 21.5,
      ...more,
    };
    const encoded = encode(READING_FIELDS, reading?.(right) ?? right);
    const bytes = readingBytes?.(encoded) ?? encoded;
    this.#latest =
      this.#deviations.shown?.(this.#latest === null ? [bytes] : [this.#latest, bytes]) ?? bytes;
    this.#store.keep(bytes);
    let delivered = false;
    for (let i = 0; i < notifications; i += 1) delivered = this.send(bytes);
    return { sequence, bytes, delivered };
  }

  /** Sends any bytes in place of a reading; false where nobody has subscribed. */
  send(bytes: Uint8Array): boolean {
    return this.#host?.notify(READING_UUID, bytes) ?? false;
  }

  /** Starts anew: another boot id, running number and uptime from zero. */
  restart(): void {
    if (this.#deviations.keepsBoot !== true) this.#boot = (this.#boot + 1) & 0xffff;
    this.#sequence = 0;
    this.#bootMs = this.#clock();
    this.#latest = null;
    if (this.#options.keepsOverRestart !== true) this.#store.forget();
  }

  /** Takes what is written to Control; undefined where it is obeyed, or the number of an ATT error. */
  control(value: Uint8Array): number | undefined {
    const interval = decode(SET_INTERVAL_FIELDS, value);
    if (interval.ok && interval.values.command === 'setInterval') {
      const { intervalMs } = interval.values;
      if (intervalMs < this.#capabilities.shortestIntervalMs) return ATT_ERROR.valueNotAllowed;
      this.#capabilities = { ...this.#capabilities, intervalMs };
      if (this.#deviations.ignoresInterval !== true) this.#pacedMs = intervalMs;
      return undefined;
    }
    const identify = decode(IDENTIFY_FIELDS, value);
    if (!identify.ok || identify.values.command !== 'identify') return ATT_ERROR.valueNotAllowed;
    this.identifyS = identify.values.seconds;
    return undefined;
  }

  #createServices(): ServiceDefinition[] {
    const { serial, reportPauseMs, tellsOfAbortedReport } = this.#options;
    const access = new RecordAccessServer({
      select: (selection) => this.#store.select(selection, this.#boot),
      host: () => this.#host,
      pauseMs: reportPauseMs ?? 0,
      tellsOfAbortedReport: tellsOfAbortedReport ?? false,
      deviations: this.#deviations,
    });
    return sensorServices({
      serial: serial ?? 'V-0001',
      latestReading: () => this.#latest ?? ATT_ERROR.unlikely,
      capabilities: () => {
        const right = encode(CAPABILITIES_FIELDS, this.#capabilities);
        return this.#deviations.capabilitiesBytes?.(right) ?? right;
      },
      batteryPercent: () => this.batteryPercent,
      control: (value) => this.control(value),
      subscription: (on) => this.#subscription(on),
      stored: this.#capabilities.bufferDepth > 0 ? access.characteristics : [],
    });
  }

  #subscription(on: boolean): void {
    this.#subscribed = on;
    const { changesBootWithLink } = this.#deviations;
    if (!on && changesBootWithLink === true) this.#boot = (this.#boot + 1) & 0xffff;
    if (on) for (const done of this.#waiting.splice(0)) done();
  }
}
