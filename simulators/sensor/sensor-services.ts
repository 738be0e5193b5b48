/** The services that a sensor of our profile offers, and what an invented one says of itself. */
import {
  BATTERY_LEVEL_UUID,
  BATTERY_SERVICE_UUID,
  type CAPABILITIES_FIELDS,
  CAPABILITIES_UUID,
  CONTROL_UUID,
  DEVICE_INFORMATION,
  DEVICE_INFORMATION_UUID,
  PROFILE_VERSION,
  READING_UUID,
  SERVICE_UUID,
} from '../../protocol/profile.ts';
import type { Values } from '../../protocol/profile-codec.ts';
import type { CharacteristicDefinition, ServiceDefinition } from './service-definition.ts';

export type Capabilities = Values<typeof CAPABILITIES_FIELDS>;

/** An invented sensor: thermal conductivity, 0.1 Pa to 3 kPa. */
export const INVENTED_CAPABILITIES: Capabilities = {
  majorVersion: PROFILE_VERSION.major,
  minorVersion: PROFILE_VERSION.minor,
  principle: 'thermalConductivity',
  calibrationGas: 'air',
  rangeLowPa: 0.1,
  rangeHighPa: 3000,
  accuracyPercent: 10,
  maximumOverpressurePa: 3_000_000,
  resolutionPa: 0.1,
  calibrationYear: null,
  calibrationMonth: null,
  calibrationDay: null,
  shortestIntervalMs: 100,
  intervalMs: 500,
  clockErrorPpm: 50,
  /** Half an hour at this interval. */
  bufferDepth: 3600,
};

/** What the services show and do; each is asked anew with every request. */
export interface ServedSensor {
  readonly serial: string;
  /** Or the number of an ATT error, before there is any. */
  readonly latestReading: () => Uint8Array | number;
  readonly capabilities: () => Uint8Array;
  readonly batteryPercent: () => number;
  /** Undefined where it is obeyed, or the number of an ATT error. */
  readonly control: (value: Uint8Array) => number | undefined;
  readonly subscription: (on: boolean) => void;
  /** Those of the stored readings; none where it keeps none. */
  readonly stored: readonly CharacteristicDefinition[];
}

export function sensorServices(sensor: ServedSensor): ServiceDefinition[] {
  return [
    {
      uuid: SERVICE_UUID,
      characteristics: [
        {
          uuid: READING_UUID,
          properties: ['read', 'notify'],
          read: sensor.latestReading,
          subscription: sensor.subscription,
        },
        {
          uuid: CAPABILITIES_UUID,
          properties: ['read'],
          read: sensor.capabilities,
        },
        { uuid: CONTROL_UUID, properties: ['write'], write: sensor.control },
        ...sensor.stored,
      ],
    },
    ...usualServices(sensor),
  ];
}

/** Battery and device information, as any sensor has them. */
export function usualServices(
  sensor: Pick<ServedSensor, 'serial' | 'batteryPercent'>,
): ServiceDefinition[] {
  return [
    {
      uuid: BATTERY_SERVICE_UUID,
      characteristics: [
        {
          uuid: BATTERY_LEVEL_UUID,
          properties: ['read'],
          read: () => Uint8Array.of(sensor.batteryPercent()),
        },
      ],
    },
    {
      uuid: DEVICE_INFORMATION_UUID,
      characteristics: [
        text(DEVICE_INFORMATION.manufacturer, 'Nobody in particular'),
        text(DEVICE_INFORMATION.model, 'Virtual sensor, first model'),
        text(DEVICE_INFORMATION.serial, sensor.serial),
        text(DEVICE_INFORMATION.firmware, '1.0.0'),
      ],
    },
  ];
}

function text(uuid: string, value: string): CharacteristicDefinition {
  return { uuid, properties: ['read'], read: () => Buffer.from(value) };
}
