/** Taking a connection to a sensor, and giving it back. */
import { eventWithin } from './deadline.ts';
import type { HostPeripheral } from './host-library.ts';

/** @throws DeadlineError where the sensor doesn't take the connection within `limitMs` */
export async function connect(
  peripheral: HostPeripheral,
  limitMs: number,
  signal: AbortSignal,
): Promise<void> {
  // What an attempt that was given up, or an adapter that was off, has left in the library: it
  // would refuse with 'already connected', and it never says when this is done.
  if (peripheral.state === 'connected') peripheral.disconnect();
  if (peripheral.state === 'connecting') peripheral.cancelConnect();
  await eventWithin({
    what: 'connection',
    emitter: peripheral,
    event: 'connect',
    limitMs,
    signal,
    begin: () => peripheral.connect(),
    take: (error) => {
      if (error instanceof Error) throw error;
      return true;
    },
  });
}

/** As far as the adapter still obeys; nobody waits for it longer than `limitMs`. Never rejects. */
export async function disconnect(peripheral: HostPeripheral, limitMs: number): Promise<void> {
  if (peripheral.state === 'connecting') peripheral.cancelConnect();
  if (peripheral.state !== 'connected') return;
  await eventWithin({
    what: 'disconnection',
    emitter: peripheral,
    event: 'disconnect',
    limitMs,
    signal: new AbortController().signal,
    begin: () => peripheral.disconnect(),
    take: () => true,
  }).catch(() => false);
}
