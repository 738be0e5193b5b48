/**
 * Errors of the Attribute Protocol, which the host libraries keep to themselves: on Linux they turn a
 * refused write into silence. What their own stack reads is looked at beside them, where that can be seen.
 */
import type { HostLibrary } from '../../sources/radio/host-library.ts';
import type { Emitter } from '../../sources/radio/deadline.ts';

/** L2CAP channel of the Attribute Protocol, and its error response. */
const ATT_CHANNEL = 0x0004;
const ERROR_RESPONSE = 0x01;

/** @returns what ends the listening; null where this library shows nothing, as on macOS and Windows */
export function listenForErrors(
  library: HostLibrary,
  onError: (code: number) => void,
): (() => void) | null {
  const stack = insideOf(insideOf(library, '_bindings'), '_hci');
  if (!isEmitter(stack)) return null;
  const onData = (_handle: unknown, channel: unknown, data: unknown): void => {
    if (channel !== ATT_CHANNEL || !(data instanceof Uint8Array)) return;
    const code = data[4];
    if (data[0] === ERROR_RESPONSE && code !== undefined) onError(code);
  };
  stack.on('aclDataPkt', onData);
  return () => {
    stack.removeListener('aclDataPkt', onData);
  };
}

function insideOf(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined;
}

function isEmitter(value: unknown): value is Emitter {
  return ['on', 'removeListener'].every((name) => typeof insideOf(value, name) === 'function');
}

const NAMES: Readonly<Record<number, string>> = {
  0x02: 'Read Not Permitted',
  0x03: 'Write Not Permitted',
  0x05: 'Insufficient Authentication',
  0x06: 'Request Not Supported',
  0x0a: 'Attribute Not Found',
  0x0d: 'Invalid Attribute Value Length',
  0x0e: 'Unlikely Error',
  0x0f: 'Insufficient Encryption',
  0x13: 'Value Not Allowed',
  0xfd: 'Client Characteristic Configuration Descriptor Improperly Configured',
  0xfe: 'Procedure Already in Progress',
};

export function sayCode(code: number | null): string {
  if (code === null) return 'a refusal whose code this system does not show';
  const name = NAMES[code];
  const number = `0x${code.toString(16).toUpperCase().padStart(2, '0')}`;
  return name === undefined ? number : `${number} (${name})`;
}
