/**
 * A sensor that speaks our profile in bytes, on the virtual air. It measures only when it is told
 * to, so that a test knows every reading that was sent.
 */
import {
  IDENTIFY_FIELDS,
  READING_FIELDS,
  READING_UUID,
  SERVICE_UUID,
  SET_INTERVAL_FIELDS,
} from '../../protocol/profile.ts';
import { decode, encode, type Values } from '../../protocol/profile-codec.ts';
import { ATT_ERROR, SMALLEST_MTU } from './att-server.ts';
import { GattPeripheral } from './gatt-peripheral.ts';
import { INVENTED_CAPABILITIES, sensorServices, type Capabilities } from './sensor-services.ts';
import type { VirtualAir } from './virtual-air.ts';
import type { VirtualController } from './virtual-controller.ts';

type Reading = Values<typeof READING_FIELDS>;

export interface VirtualSensorOptions {
  readonly name?: string;
  readonly serial?: string;
  /** The service that its advertisement names, where that isn't ours. */
  readonly advertises?: string;
  readonly batteryPercent?: number;
  /** The largest ATT_MTU it agrees to; the smallest makes long values come in parts. */
  readonly largestMtu?: number;
  readonly capabilities?: Partial<Capabilities>;
  /** Monotonic milliseconds that its uptime counts. */
  readonly clock?: () => number;
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

export class VirtualSensor {
  batteryPercent: number;
  /** For how many seconds it was last asked to show which one it is. */
  identifyS = 0;
  /** The controller and host it is made of, for faults below the profile. */
  readonly controller: VirtualController;
  readonly peripheral: GattPeripheral;

  readonly #clock: () => number;
  #bootMs: number;
  #boot = 1;
  #sequence = 0;
  #capabilities: Capabilities;
  #latest: Uint8Array;
  #subscribed = false;
  #waiting: (() => void)[] = [];

  constructor(air: VirtualAir, options: VirtualSensorOptions = {}) {
    this.#clock = options.clock ?? (() => performance.now());
    this.#bootMs = this.#clock();
    this.#capabilities = { ...INVENTED_CAPABILITIES, ...options.capabilities };
    this.batteryPercent = options.batteryPercent ?? 87;
    this.#latest = this.#encode(null, {});
    this.controller = air.createController();
    this.peripheral = new GattPeripheral(this.controller, {
      name: options.name ?? 'Virtual sensor',
      advertisedService: options.advertises ?? SERVICE_UUID,
      services: sensorServices({
        serial: options.serial ?? 'V-0001',
        latestReading: () => this.#latest,
        capabilities: () => this.#capabilities,
        batteryPercent: () => this.batteryPercent,
        control: (value) => this.control(value),
        subscription: (on) => this.#subscription(on),
      }),
      largestMtu: options.largestMtu ?? SMALLEST_MTU,
    });
  }

  /** The id by which a host library on this air knows it: its address without separators. */
  get id(): string {
    return Buffer.from(this.controller.address).reverse().toString('hex');
  }

  get intervalMs(): number {
    return this.#capabilities.intervalMs;
  }

  get subscribed(): boolean {
    return this.#subscribed;
  }

  /** Resolves as soon as somebody listens to the readings. */
  whenSubscribed(): Promise<void> {
    return this.#subscribed ? Promise.resolve() : this.nextSubscription();
  }

  /** Resolves when somebody begins to listen after this call, whoever may be listening now. */
  nextSubscription(): Promise<void> {
    return new Promise((done) => this.#waiting.push(done));
  }

  /** Takes a reading and sends it; null is 'not known', as near atmospheric pressure. */
  measure(pressurePa: number | null, more: Partial<Reading> = {}): SentReading {
    this.#sequence += 1;
    this.#latest = this.#encode(pressurePa, more);
    return { sequence: this.#sequence, bytes: this.#latest, delivered: this.send(this.#latest) };
  }

  /** Measures one pressure after the other at an interval; returns what was sent. */
  async play(pressuresPa: Iterable<number>, intervalMs: number): Promise<SentReading[]> {
    const sent: SentReading[] = [];
    for (const pressurePa of pressuresPa) {
      sent.push(this.measure(pressurePa));
      await new Promise((next) => setTimeout(next, intervalMs));
    }
    return sent;
  }

  /** Sends any bytes in place of a reading; false where nobody has subscribed. */
  send(bytes: Uint8Array): boolean {
    return this.peripheral.notify(READING_UUID, bytes);
  }

  /** Out of reach, or switched off: the link is lost and nothing is advertised. */
  vanish(): void {
    this.peripheral.vanish();
  }

  /** In reach again, as it was. */
  comeBack(): void {
    this.peripheral.comeBack();
  }

  /** Starts anew: another boot id, running number and uptime from zero. */
  reboot(): void {
    this.vanish();
    this.#boot = (this.#boot + 1) & 0xffff;
    this.#sequence = 0;
    this.#bootMs = this.#clock();
    this.comeBack();
  }

  /** Takes what is written to Control; undefined where it is obeyed, or the number of an ATT error. */
  control(value: Uint8Array): number | undefined {
    const interval = decode(SET_INTERVAL_FIELDS, value);
    if (interval.ok && interval.values.command === 'setInterval') {
      const { intervalMs } = interval.values;
      if (intervalMs < this.#capabilities.shortestIntervalMs) return ATT_ERROR.valueNotAllowed;
      this.#capabilities = { ...this.#capabilities, intervalMs };
      return undefined;
    }
    const identify = decode(IDENTIFY_FIELDS, value);
    if (!identify.ok || identify.values.command !== 'identify') return ATT_ERROR.valueNotAllowed;
    this.identifyS = identify.values.seconds;
    return undefined;
  }

  #encode(pressurePa: number | null, more: Partial<Reading>): Uint8Array {
    return encode(READING_FIELDS, {
      flags: { ...NO_FLAGS, overRange: pressurePa === null },
      boot: this.#boot,
      sequence: this.#sequence,
      uptimeMs: Math.round(this.#clock() - this.#bootMs),
      pressurePa,
      temperatureC: 21.5,
      ...more,
    });
  }

  #subscription(on: boolean): void {
    this.#subscribed = on;
    if (on) for (const done of this.#waiting.splice(0)) done();
  }
}
