/** A sensor that speaks our profile in bytes, on the virtual air. */
import { SERVICE_UUID } from '../../protocol/profile.ts';
import { SMALLEST_MTU } from './att-server.ts';
import type { Reading } from './deviations.ts';
import { GattPeripheral } from './gatt-peripheral.ts';
import {
  SensorBehaviour,
  type SensorBehaviourOptions,
  type SentReading,
} from './sensor-behaviour.ts';
import type { VirtualAir } from './virtual-air.ts';
import type { VirtualController } from './virtual-controller.ts';

export type { SentReading };

export interface VirtualSensorOptions extends SensorBehaviourOptions {
  readonly name?: string;
  /** The service that its advertisement names, where that isn't ours. */
  readonly advertises?: string;
  /** The largest ATT_MTU it agrees to; the smallest makes long values come in parts. */
  readonly largestMtu?: number;
  /** False: a link is its last. */
  readonly advertisesAgain?: boolean;
  /** It answers no request. */
  readonly mute?: boolean;
}

export class VirtualSensor {
  /** The controller and host it is made of, for faults below the profile. */
  readonly controller: VirtualController;
  readonly peripheral: GattPeripheral;
  readonly behaviour: SensorBehaviour;

  constructor(air: VirtualAir, options: VirtualSensorOptions = {}) {
    this.behaviour = new SensorBehaviour(options);
    this.controller = air.createController();
    this.peripheral = new GattPeripheral(this.controller, {
      name: options.name ?? 'Virtual sensor',
      advertisedService: options.advertises ?? SERVICE_UUID,
      services: this.behaviour.services,
      largestMtu: options.largestMtu ?? SMALLEST_MTU,
      advertisesAgain: options.advertisesAgain ?? true,
    });
    if (options.mute === true) this.peripheral.intercept = () => null;
    this.behaviour.attach(this.peripheral);
  }

  /** The id by which a host library on this air knows it: its address without separators. */
  get id(): string {
    return Buffer.from(this.controller.address).reverse().toString('hex');
  }

  get intervalMs(): number {
    return this.behaviour.intervalMs;
  }

  get identifyS(): number {
    return this.behaviour.identifyS;
  }

  get batteryPercent(): number {
    return this.behaviour.batteryPercent;
  }

  set batteryPercent(percent: number) {
    this.behaviour.batteryPercent = percent;
  }

  get subscribed(): boolean {
    return this.behaviour.subscribed;
  }

  /** Resolves as soon as somebody listens to the readings. */
  whenSubscribed(): Promise<void> {
    return this.subscribed ? Promise.resolve() : this.nextSubscription();
  }

  /** Resolves when somebody begins to listen after this call, whoever may be listening now. */
  nextSubscription(): Promise<void> {
    return this.behaviour.nextSubscription();
  }

  /** Takes a reading, keeps and sends it; null is 'not known', as near atmospheric pressure. */
  measure(pressurePa: number | null, more: Partial<Reading> = {}): SentReading {
    return this.behaviour.measure(pressurePa, more);
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

  /**
   * Resolves when everything that was sent has reached the central's controller, or the link is
   * over: whoever measures faster than time passes waits for this now and then.
   */
  drained(): Promise<void> {
    return this.peripheral.drained();
  }

  /** Sends any bytes in place of a reading; false where nobody has subscribed. */
  send(bytes: Uint8Array): boolean {
    return this.behaviour.send(bytes);
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
    this.behaviour.restart();
    this.comeBack();
  }

  /** Takes what is written to Control; undefined where it is obeyed, or the number of an ATT error. */
  control(value: Uint8Array): number | undefined {
    return this.behaviour.control(value);
  }
}
