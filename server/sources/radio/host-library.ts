/**
 * The little that the two host libraries have in common and that we use, with guards for what their
 * events bring. Requests are made without callbacks: a callback that is never called would leave
 * its listener behind in the library.
 */
import type { Emitter } from './deadline.ts';

export interface HostLibrary extends Emitter {
  startScanning(serviceUuids: string[], allowDuplicates: boolean): void;
  stopScanning(): void;
}

export interface HostPeripheral extends Emitter {
  readonly id: string;
  readonly state: string;
  readonly rssi: number;
  readonly advertisement: {
    readonly localName?: string | undefined;
    readonly serviceUuids?: readonly string[] | undefined;
  };
  connect(): void;
  cancelConnect(): void;
  disconnect(): void;
  updateRssi(): void;
  discoverServices(uuids: string[]): void;
}

export interface HostService extends Emitter {
  readonly uuid: string;
  discoverCharacteristics(uuids: string[]): void;
}

export interface HostCharacteristic extends Emitter {
  readonly uuid: string;
  read(): void;
  subscribe(): void;
  write(bytes: Buffer, withoutResponse: boolean): void;
}

/** The libraries write UUIDs without hyphens. */
export function hostUuid(uuid: string): string {
  return uuid.replaceAll('-', '');
}

export function isHostLibrary(value: unknown): value is HostLibrary {
  return isEmitter(value) && hasMethods(value, ['startScanning', 'stopScanning']);
}

const PERIPHERAL_METHODS = [
  'connect',
  'cancelConnect',
  'disconnect',
  'updateRssi',
  'discoverServices',
];

export function isHostPeripheral(value: unknown): value is HostPeripheral {
  return (
    isEmitter(value) &&
    hasMethods(value, PERIPHERAL_METHODS) &&
    'id' in value &&
    typeof value.id === 'string' &&
    'advertisement' in value &&
    typeof value.advertisement === 'object' &&
    value.advertisement !== null
  );
}

export function isHostService(value: unknown): value is HostService {
  return isEmitter(value) && hasUuid(value) && hasMethods(value, ['discoverCharacteristics']);
}

export function isHostCharacteristic(value: unknown): value is HostCharacteristic {
  return isEmitter(value) && hasUuid(value) && hasMethods(value, ['read', 'subscribe', 'write']);
}

function isEmitter(value: unknown): value is Emitter {
  return typeof value === 'object' && value !== null && hasMethods(value, ['on', 'removeListener']);
}

function hasMethods(value: object, names: readonly string[]): boolean {
  return names.every((name) => typeof Reflect.get(value, name) === 'function');
}

function hasUuid(value: object): boolean {
  return typeof Reflect.get(value, 'uuid') === 'string';
}
