/** Looks for the sensor that is to be examined, and for how it advertises. */
import { SERVICE_UUID } from '../../../protocol/profile.ts';
import { eventWithin, pause } from '../../sources/radio/deadline.ts';
import {
  hostUuid,
  isHostPeripheral,
  type HostLibrary,
  type HostPeripheral,
} from '../../sources/radio/host-library.ts';
import type { Patience } from './patience.ts';

export interface Wanted {
  readonly name: string | null;
  readonly id: string | null;
}

export interface Found {
  readonly peripheral: HostPeripheral;
  readonly id: string;
  /** Null where it advertises none. */
  readonly name: string | null;
  readonly connectable: boolean;
  readonly advertisesService: boolean;
}

/** Where neither is said, the first one that advertises the service. */
export async function findSensor(
  library: HostLibrary,
  wanted: Wanted,
  { findMs, nameMs, answerMs }: Patience,
): Promise<Found> {
  const never = new AbortController().signal;
  const isWanted = (peripheral: HostPeripheral): boolean => {
    if (wanted.id !== null) return plainId(peripheral.id) === plainId(wanted.id);
    if (wanted.name !== null) return peripheral.advertisement.localName === wanted.name;
    return advertisesService(peripheral);
  };
  try {
    const peripheral = await eventWithin({
      what: 'the sensor',
      emitter: library,
      event: 'discover',
      limitMs: findMs,
      signal: never,
      begin: () => library.startScanning([], true),
      take: (found) => (isHostPeripheral(found) && isWanted(found) ? found : undefined),
    });
    // What it advertises and what it answers to a search come as two packets.
    const endMs = performance.now() + nameMs;
    while ((peripheral.advertisement.localName ?? '') === '' && performance.now() < endMs) {
      await pause(20, never);
    }
    const { id, advertisement } = peripheral;
    const connectable: unknown = Reflect.get(peripheral, 'connectable');
    return {
      peripheral,
      id,
      name: advertisement.localName === '' ? null : (advertisement.localName ?? null),
      // Some systems don't say; then connecting itself shows it.
      connectable: connectable !== false,
      advertisesService: advertisesService(peripheral),
    };
  } finally {
    await eventWithin({
      what: 'the end of the search',
      emitter: library,
      event: 'scanStop',
      limitMs: answerMs,
      signal: never,
      begin: () => library.stopScanning(),
      take: () => true,
    });
  }
}

function advertisesService({ advertisement }: HostPeripheral): boolean {
  const uuids: unknown = Reflect.get(advertisement, 'serviceUuids');
  return Array.isArray(uuids) && uuids.includes(hostUuid(SERVICE_UUID));
}

/** As people write addresses, and as the libraries do. */
function plainId(id: string): string {
  return id.toLowerCase().replaceAll(/[^0-9a-f]/gu, '');
}
