/**
 * The little that the libraries for the peripheral's role have in common and that we use, with a guard.
 * One of them hands the connection to every callback, the other doesn't: see `callback-arguments.ts`.
 */
interface Emitter {
  on(event: string, listener: (...values: unknown[]) => void): unknown;
  removeListener(event: string, listener: (...values: unknown[]) => void): unknown;
}

interface CharacteristicOptions {
  readonly uuid: string;
  readonly properties: readonly string[];
  readonly onReadRequest: (...values: unknown[]) => void;
  readonly onWriteRequest: (...values: unknown[]) => void;
  readonly onSubscribe: (...values: unknown[]) => void;
  readonly onUnsubscribe: (...values: unknown[]) => void;
  readonly onIndicate: (...values: unknown[]) => void;
}

export interface PeripheralLibrary extends Emitter {
  readonly state: string;
  readonly address: string;
  readonly Characteristic: new (options: CharacteristicOptions) => object;
  readonly PrimaryService: new (options: {
    readonly uuid: string;
    readonly characteristics: readonly object[];
  }) => object;
  setServices(services: readonly object[]): void;
  startAdvertising(name: string, serviceUuids: readonly string[]): void;
  stopAdvertising(): void;
  disconnect(): void;
}

const METHODS = ['on', 'removeListener', 'setServices', 'startAdvertising', 'stopAdvertising'];

export function isPeripheralLibrary(value: unknown): value is PeripheralLibrary {
  if (typeof value !== 'object' || value === null) return false;
  return [...METHODS, 'disconnect', 'Characteristic', 'PrimaryService'].every(
    (name) => typeof Reflect.get(value, name) === 'function',
  );
}

/** A UUID without hyphens, as the libraries write it. */
export function libraryUuid(uuid: string): string {
  return uuid.replaceAll('-', '');
}
