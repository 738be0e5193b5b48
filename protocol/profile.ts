/**
 * The sensor profile as data: every characteristic of our own with its fields, in the order of their
 * bytes. `sensor-profile.md` is the same for people; a test holds the two together.
 */

type FieldType = 'uint8' | 'uint16' | 'uint32' | 'sint16';

interface PlainField {
  readonly name: string;
  readonly type: FieldType;
  readonly unit: string;
  /** Raw counts per unit: a pressure in mPa read as Pa has 1000. */
  readonly countsPerUnit?: number;
  /** The raw value that says 'not known'; it decodes to null. */
  readonly notKnown?: number;
  /** The largest raw value that has a meaning, where that is less than the type can hold. */
  readonly max?: number;
}

interface FlagsField {
  readonly name: string;
  readonly type: 'flags8';
  /** From bit 0 upward; the bits that follow are reserved and sent as 0. */
  readonly bits: readonly string[];
}

interface ChoiceField {
  readonly name: string;
  readonly type: 'choice8';
  /** Value 0 upward. */
  readonly choices: readonly string[];
}

export type Field = PlainField | FlagsField | ChoiceField;

export const PROFILE_VERSION = { major: 1, minor: 1 } as const;

/** 128-bit UUIDs: one base of our own, the third and fourth byte tell the attribute. */
const uuid = (id: string): string => `6d3f${id}-5b0e-4c1b-9a0f-7e2d41c8b6a5`;

export const SERVICE_UUID = uuid('0001');
export const READING_UUID = uuid('0002');
export const CAPABILITIES_UUID = uuid('0003');
export const CONTROL_UUID = uuid('0004');
/** Notify: stored readings, each in the form of a Reading, while a report of them is under way. */
export const STORED_READINGS_UUID = uuid('0005');
/** Write and indicate; see `record-access.ts`. A SIG characteristic within our service. */
export const RECORD_ACCESS_UUID = '2a52';

/** Bluetooth SIG assigned numbers that the profile uses beside its own. */
export const BATTERY_SERVICE_UUID = '180f';
export const BATTERY_LEVEL_UUID = '2a19';
export const DEVICE_INFORMATION_UUID = '180a';
export const DEVICE_INFORMATION = {
  manufacturer: '2a29',
  model: '2a24',
  serial: '2a25',
  firmware: '2a26',
} as const;

/**
 * Bluetooth SIG's Environmental Sensing Service with its Pressure (uint32, 0.1 Pa) and Temperature
 * (sint16, 0.01 °C): what a sensor may speak in place of ours, with less to offer.
 */
export const ENVIRONMENTAL_SENSING_UUID = '181a';
export const STANDARD_PRESSURE_UUID = '2a6d';
export const STANDARD_TEMPERATURE_UUID = '2a6e';

const UINT32_NOT_KNOWN = 0xffff_ffff;
const UINT16_NOT_KNOWN = 0xffff;

/** Notify and read; 17 bytes, so that it fits the 20 that the smallest ATT_MTU leaves. */
export const READING_FIELDS = [
  {
    name: 'flags',
    type: 'flags8',
    bits: ['overRange', 'underRange', 'warmingUp', 'fault', 'timeReset'],
  },
  { name: 'boot', type: 'uint16', unit: '' },
  { name: 'sequence', type: 'uint32', unit: '' },
  { name: 'uptimeMs', type: 'uint32', unit: 'ms' },
  {
    name: 'pressurePa',
    type: 'uint32',
    unit: 'Pa',
    countsPerUnit: 1000,
    notKnown: UINT32_NOT_KNOWN,
  },
  { name: 'temperatureC', type: 'sint16', unit: '°C', countsPerUnit: 100, notKnown: -0x8000 },
] as const satisfies readonly Field[];

/** Read; longer than 20 bytes, so read with Read Blob or a larger ATT_MTU. */
export const CAPABILITIES_FIELDS = [
  { name: 'majorVersion', type: 'uint8', unit: '' },
  { name: 'minorVersion', type: 'uint8', unit: '' },
  {
    name: 'principle',
    type: 'choice8',
    choices: [
      'notKnown',
      'thermalConductivity',
      'diaphragmCapacitance',
      'diaphragmStrain',
      'combined',
      'simulated',
    ],
  },
  { name: 'calibrationGas', type: 'choice8', choices: ['notKnown', 'air', 'nitrogen'] },
  {
    name: 'rangeLowPa',
    type: 'uint32',
    unit: 'Pa',
    countsPerUnit: 1000,
    notKnown: UINT32_NOT_KNOWN,
  },
  {
    name: 'rangeHighPa',
    type: 'uint32',
    unit: 'Pa',
    countsPerUnit: 1000,
    notKnown: UINT32_NOT_KNOWN,
  },
  {
    name: 'accuracyPercent',
    type: 'uint16',
    unit: '% of reading',
    countsPerUnit: 100,
    notKnown: UINT16_NOT_KNOWN,
  },
  { name: 'maximumOverpressurePa', type: 'uint32', unit: 'Pa', notKnown: UINT32_NOT_KNOWN },
  {
    name: 'resolutionPa',
    type: 'uint32',
    unit: 'Pa',
    countsPerUnit: 1000,
    notKnown: UINT32_NOT_KNOWN,
  },
  { name: 'calibrationYear', type: 'uint16', unit: 'year', notKnown: 0 },
  { name: 'calibrationMonth', type: 'uint8', unit: 'month', notKnown: 0, max: 12 },
  { name: 'calibrationDay', type: 'uint8', unit: 'day', notKnown: 0, max: 31 },
  { name: 'shortestIntervalMs', type: 'uint16', unit: 'ms' },
  { name: 'intervalMs', type: 'uint16', unit: 'ms' },
  { name: 'clockErrorPpm', type: 'uint16', unit: 'ppm', notKnown: UINT16_NOT_KNOWN },
  { name: 'bufferDepth', type: 'uint32', unit: 'readings' },
] as const satisfies readonly Field[];

/** Notify; the value of the Environmental Sensing Service's Pressure. */
export const STANDARD_PRESSURE_FIELDS = [
  { name: 'pressurePa', type: 'uint32', unit: 'Pa', countsPerUnit: 10 },
] as const satisfies readonly Field[];

/** Notify and read; the same of its Temperature. */
export const STANDARD_TEMPERATURE_FIELDS = [
  { name: 'temperatureC', type: 'sint16', unit: '°C', countsPerUnit: 100, notKnown: -0x8000 },
] as const satisfies readonly Field[];

/** Write: set the interval between readings. */
export const SET_INTERVAL_FIELDS = [
  { name: 'command', type: 'choice8', choices: ['reserved', 'setInterval'] },
  { name: 'intervalMs', type: 'uint16', unit: 'ms' },
] as const satisfies readonly Field[];

/** Write: let the sensor show which one it is (light or sound) for some seconds. */
export const IDENTIFY_FIELDS = [
  { name: 'command', type: 'choice8', choices: ['reserved', 'reserved1', 'identify'] },
  { name: 'seconds', type: 'uint8', unit: 's' },
] as const satisfies readonly Field[];
