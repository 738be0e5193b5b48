/**
 * The part of the Host Controller Interface that a Low Energy host uses, and H4 framing of it.
 * Source: Bluetooth Core Specification, Vol 4, Part A (H4) and Part E, section 7 (HCI).
 */

/** First byte of every packet on an H4 transport. */
export const PACKET = { command: 0x01, acl: 0x02, event: 0x04 } as const;

/**
 * Not H4: one more kind of packet between a virtual controller and its socket, two bytes long, for
 * what a real adapter's driver says beside the transport.
 */
export const ADAPTER_PACKET = 0xf0;
export const ADAPTER = { off: 0, on: 1, forbidden: 2 } as const;

export const EVENT = {
  disconnectionComplete: 0x05,
  commandComplete: 0x0e,
  commandStatus: 0x0f,
  completedPackets: 0x13,
  leMeta: 0x3e,
} as const;

export const LE_META = {
  connectionComplete: 0x01,
  advertisingReport: 0x02,
  connectionUpdateComplete: 0x03,
} as const;

export const COMMAND = {
  disconnect: 0x0406,
  setEventMask: 0x0c01,
  reset: 0x0c03,
  readLeHostSupport: 0x0c6c,
  writeLeHostSupport: 0x0c6d,
  readLocalVersion: 0x1001,
  readAddress: 0x1009,
  readRssi: 0x1405,
  leSetEventMask: 0x2001,
  leReadBufferSize: 0x2002,
  leReadFeatures: 0x2003,
  leSetAdvertisingParameters: 0x2006,
  leSetAdvertisingData: 0x2008,
  leSetScanResponse: 0x2009,
  leSetAdvertising: 0x200a,
  leSetScanParameters: 0x200b,
  leSetScan: 0x200c,
  leConnect: 0x200d,
  leCancelConnect: 0x200e,
  leUpdateConnection: 0x2013,
} as const;

export const STATUS = {
  success: 0x00,
  unknownCommand: 0x01,
  noConnection: 0x02,
  connectionTimeout: 0x08,
  disallowed: 0x0c,
  remoteUserEnded: 0x13,
  localHostEnded: 0x16,
} as const;

/** Packet boundary flags of ACL data, as in bits 12 and 13 of its handle. */
export const BOUNDARY = { firstFromHost: 0, continuing: 1, firstToHost: 2 } as const;

export function uint16(value: number): Buffer {
  const bytes = Buffer.alloc(2);
  bytes.writeUInt16LE(value);
  return bytes;
}

export function commandPacket(opcode: number, parameters: Uint8Array): Buffer {
  return Buffer.concat([
    Buffer.from([PACKET.command]),
    uint16(opcode),
    Buffer.from([parameters.length]),
    parameters,
  ]);
}

export function eventPacket(code: number, parameters: Uint8Array): Buffer {
  return Buffer.concat([Buffer.from([PACKET.event, code, parameters.length]), parameters]);
}

export function aclPacket(handle: number, boundary: number, data: Uint8Array): Buffer {
  return Buffer.concat([
    Buffer.from([PACKET.acl]),
    uint16(handle | (boundary << 12)),
    uint16(data.length),
    data,
  ]);
}

/** A Bluetooth address as it travels (least significant byte first) from its usual writing. */
export function addressBytes(address: string): Buffer {
  return Buffer.from(address.replaceAll(':', ''), 'hex').reverse();
}
