/** What a controller says to its host. Source: Bluetooth Core Specification, Vol 4, Part E, section 7.7. */
import { EVENT, eventPacket, LE_META, STATUS, uint16 } from './hci.ts';

export const ADVERTISEMENT = { connectable: 0x00, scanResponse: 0x04 } as const;
export const ROLE = { central: 0, peripheral: 1 } as const;

interface Advertisement {
  readonly address: Uint8Array;
  readonly kind: number;
  readonly data: Uint8Array;
  readonly signalDbm: number;
}

export function commandComplete(opcode: number, status: number, results: Uint8Array[]): Buffer {
  const parameters = [Buffer.from([1]), uint16(opcode), Buffer.from([status]), ...results];
  return eventPacket(EVENT.commandComplete, Buffer.concat(parameters));
}

export function commandStatus(opcode: number, status: number): Buffer {
  const parameters = [Buffer.from([status, 1]), uint16(opcode)];
  return eventPacket(EVENT.commandStatus, Buffer.concat(parameters));
}

export function advertisingReport({ address, kind, data, signalDbm }: Advertisement): Buffer {
  return leMeta(
    Buffer.from([LE_META.advertisingReport, 1, kind, 0]),
    address,
    Buffer.from([data.length]),
    data,
    signalByte(signalDbm),
  );
}

export function connectionComplete(
  status: number,
  handle: number,
  role: number,
  peer: Uint8Array,
): Buffer {
  // Interval 22.5 ms, no latency, supervision timeout 420 ms: the defaults that noble asks for.
  return leMeta(
    Buffer.from([LE_META.connectionComplete, status]),
    uint16(handle),
    Buffer.from([role, 0]),
    peer,
    uint16(18),
    uint16(0),
    uint16(42),
    Buffer.from([0]),
  );
}

/** @param wanted interval, latency and timeout, six bytes, as the host asked for them */
export function connectionUpdated(handle: Uint8Array, wanted: Uint8Array): Buffer {
  return leMeta(Buffer.from([LE_META.connectionUpdateComplete, STATUS.success]), handle, wanted);
}

export function disconnectionComplete(handle: number, reason: number): Buffer {
  const parameters = [Buffer.from([STATUS.success]), uint16(handle), Buffer.from([reason])];
  return eventPacket(EVENT.disconnectionComplete, Buffer.concat(parameters));
}

/** Gives the host its credit for one packet of data back. */
export function completedPacket(handle: number): Buffer {
  const parameters = [Buffer.from([1]), uint16(handle), uint16(1)];
  return eventPacket(EVENT.completedPackets, Buffer.concat(parameters));
}

/** A signal strength in dBm as a signed byte. */
export function signalByte(signalDbm: number): Buffer {
  return Buffer.from([signalDbm & 0xff]);
}

function leMeta(...parameters: Uint8Array[]): Buffer {
  return eventPacket(EVENT.leMeta, Buffer.concat(parameters));
}
