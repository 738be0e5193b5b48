/** What the check asks of the host libraries beyond what the bridge does: writing, and taking back. */
import { isHostCharacteristic, type HostCharacteristic } from '../../sources/radio/host-library.ts';

export interface WritableCharacteristic extends HostCharacteristic {
  readonly properties: readonly string[];
  write(data: Uint8Array, withoutResponse: boolean): void;
  unsubscribe(): void;
}

export function isWritableCharacteristic(value: unknown): value is WritableCharacteristic {
  return (
    isHostCharacteristic(value) &&
    ['write', 'unsubscribe'].every((name) => typeof Reflect.get(value, name) === 'function') &&
    'properties' in value &&
    Array.isArray(value.properties)
  );
}
