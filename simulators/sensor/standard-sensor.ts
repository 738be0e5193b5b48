/**
 * A sensor that knows nothing of our profile, on the virtual air: it speaks Bluetooth's Environmental
 * Sensing Service, so its readings have no number, no clock and no store.
 */
import {
  ENVIRONMENTAL_SENSING_UUID,
  STANDARD_PRESSURE_FIELDS,
  STANDARD_PRESSURE_UUID,
  STANDARD_TEMPERATURE_FIELDS,
  STANDARD_TEMPERATURE_UUID,
} from '../../protocol/profile.ts';
import { encode } from '../../protocol/profile-codec.ts';
import { ATT_ERROR, SMALLEST_MTU } from './att-server.ts';
import { GattPeripheral } from './gatt-peripheral.ts';
import { usualServices } from './sensor-services.ts';
import type { CharacteristicDefinition } from './service-definition.ts';
import type { VirtualAir } from './virtual-air.ts';
import type { VirtualController } from './virtual-controller.ts';

export interface StandardSensorOptions {
  readonly name?: string;
  readonly serial?: string;
  readonly batteryPercent?: number;
  /** Temperature is optional in that service. */
  readonly hasTemperature?: boolean;
  /** So are notifications: without them a value is there to be read only. */
  readonly notifies?: boolean;
}

export class StandardSensor {
  readonly controller: VirtualController;
  readonly peripheral: GattPeripheral;
  readonly #values = new Map<string, Uint8Array>();
  #subscribed = false;
  #waiting: (() => void)[] = [];

  constructor(air: VirtualAir, options: StandardSensorOptions = {}) {
    const { name, serial, batteryPercent, hasTemperature = true, notifies = true } = options;
    this.controller = air.createController();
    const characteristics = [this.#offer(STANDARD_PRESSURE_UUID, notifies)];
    if (hasTemperature) characteristics.push(this.#offer(STANDARD_TEMPERATURE_UUID, notifies));
    const usual = { serial: serial ?? 'S-0001', batteryPercent: () => batteryPercent ?? 55 };
    this.peripheral = new GattPeripheral(this.controller, {
      name: name ?? 'Standard sensor',
      advertisedService: ENVIRONMENTAL_SENSING_UUID,
      services: [{ uuid: ENVIRONMENTAL_SENSING_UUID, characteristics }, ...usualServices(usual)],
      largestMtu: SMALLEST_MTU,
      advertisesAgain: true,
    });
  }

  /** The id by which a host library on this air knows it: its address without separators. */
  get id(): string {
    return Buffer.from(this.controller.address).reverse().toString('hex');
  }

  /** Whether somebody listens to the pressure. */
  get subscribed(): boolean {
    return this.#subscribed;
  }

  /** Resolves as soon as somebody listens to the pressure. */
  whenSubscribed(): Promise<void> {
    if (this.#subscribed) return Promise.resolve();
    return new Promise((done) => this.#waiting.push(done));
  }

  /**
   * Shows and sends both values, the temperature first.
   * @returns the bytes of the pressure, and whether somebody had subscribed to it
   */
  measure(
    pressurePa: number,
    temperatureC: number | null = 21.5,
  ): { readonly bytes: Uint8Array; readonly delivered: boolean } {
    this.#show(STANDARD_TEMPERATURE_UUID, encode(STANDARD_TEMPERATURE_FIELDS, { temperatureC }));
    const bytes = encode(STANDARD_PRESSURE_FIELDS, { pressurePa });
    return { bytes, delivered: this.#show(STANDARD_PRESSURE_UUID, bytes) };
  }

  /** Out of reach, or switched off: the link is lost and nothing is advertised. */
  vanish(): void {
    this.peripheral.vanish();
  }

  comeBack(): void {
    this.peripheral.comeBack();
  }

  #show(uuid: string, value: Uint8Array): boolean {
    this.#values.set(uuid, value);
    return this.peripheral.notify(uuid, value);
  }

  #offer(uuid: string, notifies: boolean): CharacteristicDefinition {
    return {
      uuid,
      properties: notifies ? ['read', 'notify'] : ['read'],
      read: () => this.#values.get(uuid) ?? ATT_ERROR.unlikely,
      subscription: (on) => {
        if (uuid === STANDARD_PRESSURE_UUID) this.#subscription(on);
      },
    };
  }

  #subscription(on: boolean): void {
    this.#subscribed = on;
    if (on) for (const done of this.#waiting.splice(0)) done();
  }
}
