/**
 * What the peripheral's libraries get wrong, dealt with in one place. Read from their sources and seen on
 * the virtual air; each function says what it is for.
 */
import type { PeripheralLibrary } from './peripheral-library.ts';

/**
 * Sending to a link that has just ended throws a TypeError from inside the library: it looks up a
 * connection that it has forgotten.
 * @returns false where that happened
 */
export function sendOrFail(send: () => void): boolean {
  try {
    send();
    return true;
  } catch (error) {
    if (error instanceof TypeError) return false;
    throw error;
  }
}

/**
 * They take any number of notifications without saying that the controller is congested, so a report
 * would push live readings back by minutes. How many packets wait is known inside only; null where it
 * isn't, as on macOS.
 */
export function packetsWaiting(library: PeripheralLibrary): number | null {
  let value: unknown = library;
  for (const key of ['_bindings', '_hci', '_aclOutQueue']) {
    if (typeof value !== 'object' || value === null) return null;
    value = Reflect.get(value, key);
  }
  return Array.isArray(value) ? value.length : null;
}

/**
 * On Linux and Windows an adapter may be asked to advertise while it is connected, and one of the
 * libraries does: a second central could connect. On macOS the system itself decides, and nobody is
 * told of the end of a link, so advertising that was stopped would never begin again.
 */
export function mayStopAdvertising(): boolean {
  return process.platform !== 'darwin';
}

/**
 * A malformed packet from outside throws out of the library's handler of the socket's events, where
 * nobody can catch it, and would end the process. The link that it came over is of no use then.
 * @returns what takes the guard away again
 */
export function surviveStumbles(
  library: PeripheralLibrary,
  said: (what: string) => void,
): () => void {
  const onException = (error: Error): void => {
    if (!/[\\/]bleno[\\/]/.test(error.stack ?? '')) throw error;
    said(error.message);
    library.disconnect();
  };
  process.on('uncaughtException', onException);
  return () => process.removeListener('uncaughtException', onException);
}
