/**
 * An Attribute Protocol server over a table of services: it answers one request at a time, so every
 * request has at most one response. Source: Bluetooth Core Specification, Vol 3, Part F, section 3.4.
 */
import { uint16 } from './hci.ts';
import type { CharacteristicDefinition, ServiceDefinition } from './service-definition.ts';

export const ATT = {
  error: 0x01,
  mtuRequest: 0x02,
  findInformation: 0x04,
  readByType: 0x08,
  read: 0x0a,
  readBlob: 0x0c,
  readByGroup: 0x10,
  write: 0x12,
  notification: 0x1b,
  indication: 0x1d,
  confirmation: 0x1e,
  writeCommand: 0x52,
} as const;

export const ATT_ERROR = {
  invalidHandle: 0x01,
  readNotPermitted: 0x02,
  writeNotPermitted: 0x03,
  notSupported: 0x06,
  notFound: 0x0a,
  invalidLength: 0x0d,
  unlikely: 0x0e,
  valueNotAllowed: 0x13,
  /** The profile's own two: Core Specification Supplement, Part B, section 1.2. */
  notConfigured: 0xfd,
  underWay: 0xfe,
} as const;

const PROPERTY = { read: 0x02, write: 0x08, notify: 0x10, indicate: 0x20 } as const;
/** Bits of a Client Characteristic Configuration (Core Specification, Vol 3, Part G, 3.3.3.3). */
const CONFIGURED = { read: 0, write: 0, notify: 0x01, indicate: 0x02 } as const;
const TYPE = {
  primaryService: '2800',
  characteristic: '2803',
  clientConfiguration: '2902',
} as const;
/** The ATT_MTU of a new link (Core Specification, Vol 3, Part G, section 5.2.1). */
export const SMALLEST_MTU = 23;

interface Attribute {
  readonly handle: number;
  readonly type: Buffer;
  /** Last handle of a service's group. */
  groupEnd?: number;
  read(): Uint8Array | number;
  write(value: Uint8Array): number | undefined;
}

interface Configuration {
  readonly bits: number;
  readonly subscription: ((on: boolean) => void) | undefined;
}

export class AttServer {
  #mtu = SMALLEST_MTU;
  readonly #largestMtu: number;
  readonly #attributes: Attribute[] = [];
  readonly #valueHandles = new Map<string, number>();
  readonly #configured = new Map<string, Configuration>();

  constructor(services: readonly ServiceDefinition[], largestMtu: number) {
    this.#largestMtu = largestMtu;
    for (const service of services) this.#addService(service);
  }

  /** A link begins or ends: what the peer had negotiated and subscribed is void. */
  forgetPeer(): void {
    this.#mtu = SMALLEST_MTU;
    const ended = [...this.#configured.values()];
    this.#configured.clear();
    for (const { subscription } of ended) subscription?.(false);
  }

  /** The response to a request, or null where the protocol wants none. */
  respond(request: Buffer): Buffer | null {
    const opcode = request.readUInt8(0);
    switch (opcode) {
      case ATT.mtuRequest:
        this.#mtu = Math.max(SMALLEST_MTU, Math.min(this.#largestMtu, request.readUInt16LE(1)));
        return Buffer.concat([Buffer.from([opcode + 1]), uint16(this.#largestMtu)]);
      case ATT.readByGroup:
      case ATT.readByType:
        return this.#list(opcode, request);
      case ATT.read:
        return this.#read(opcode, request.readUInt16LE(1), 0);
      case ATT.readBlob:
        return this.#read(opcode, request.readUInt16LE(1), request.readUInt16LE(3));
      case ATT.write:
      case ATT.writeCommand:
        return this.#write(opcode, request.readUInt16LE(1), request.subarray(3));
      case ATT.confirmation:
        return null;
      default:
        return errorResponse(opcode, 0, ATT_ERROR.notSupported);
    }
  }

  /** A notification, or null where the peer hasn't subscribed. */
  notification(uuid: string, value: Uint8Array): Buffer | null {
    return this.#push(ATT.notification, CONFIGURED.notify, uuid, value);
  }

  /** An indication, or null where the peer hasn't asked for any. */
  indication(uuid: string, value: Uint8Array): Buffer | null {
    return this.#push(ATT.indication, CONFIGURED.indicate, uuid, value);
  }

  #push(opcode: number, bit: number, uuid: string, value: Uint8Array): Buffer | null {
    const handle = this.#valueHandles.get(uuid);
    const bits = this.#configured.get(uuid)?.bits ?? 0;
    if (handle === undefined || (bits & bit) === 0) return null;
    const room = this.#mtu - 3;
    return Buffer.concat([Buffer.from([opcode]), uint16(handle), value.subarray(0, room)]);
  }

  #addService(service: ServiceDefinition): void {
    const declaration = this.#add(TYPE.primaryService, () => uuidBytes(service.uuid));
    for (const characteristic of service.characteristics) this.#addCharacteristic(characteristic);
    declaration.groupEnd = this.#attributes.length;
  }

  #addCharacteristic(definition: CharacteristicDefinition): void {
    const { uuid, properties } = definition;
    const bits = properties.reduce((sum, property) => sum | PROPERTY[property], 0);
    const handle = this.#attributes.length + 2;
    const declaration = [Buffer.from([bits]), uint16(handle), uuidBytes(uuid)];
    this.#add(TYPE.characteristic, () => Buffer.concat(declaration));
    this.#add(
      uuid,
      definition.read ?? (() => ATT_ERROR.readNotPermitted),
      definition.write ?? (() => ATT_ERROR.writeNotPermitted),
    );
    this.#valueHandles.set(uuid, handle);
    const allowed = properties.reduce((sum, property) => sum | CONFIGURED[property], 0);
    if (allowed === 0) return;
    this.#add(
      TYPE.clientConfiguration,
      () => uint16(this.#configured.get(uuid)?.bits ?? 0),
      (value) => this.#configure(definition, (value[0] ?? 0) & allowed),
    );
  }

  #configure({ uuid, subscription }: CharacteristicDefinition, bits: number): undefined {
    if (bits === 0) this.#configured.delete(uuid);
    else this.#configured.set(uuid, { bits, subscription });
    subscription?.(bits !== 0);
  }

  #add(
    type: string,
    read: () => Uint8Array | number,
    write: (value: Uint8Array) => number | undefined = () => ATT_ERROR.writeNotPermitted,
  ): Attribute {
    const handle = this.#attributes.length + 1;
    const attribute = { handle, type: uuidBytes(type), read, write };
    this.#attributes.push(attribute);
    return attribute;
  }

  /** Rows of equal length, as many as fit: what both listing requests answer with. */
  #list(opcode: number, request: Buffer): Buffer {
    const first = request.readUInt16LE(1);
    const last = request.readUInt16LE(3);
    const rows: Buffer[] = [];
    for (const attribute of this.#attributes) {
      if (attribute.handle < first || attribute.handle > last) continue;
      if (!attribute.type.equals(request.subarray(5))) continue;
      const value = attribute.read();
      if (typeof value === 'number') break;
      const group = attribute.groupEnd === undefined ? [] : [uint16(attribute.groupEnd)];
      const row = Buffer.concat([uint16(attribute.handle), ...group, value]);
      const length = rows[0]?.length ?? row.length;
      if (row.length !== length || (rows.length + 1) * length > this.#mtu - 2) break;
      rows.push(row);
    }
    if (rows[0] === undefined) return errorResponse(opcode, first, ATT_ERROR.notFound);
    return Buffer.concat([Buffer.from([opcode + 1, rows[0].length]), ...rows]);
  }

  #read(opcode: number, handle: number, offset: number): Buffer {
    const value = this.#attributes[handle - 1]?.read() ?? ATT_ERROR.invalidHandle;
    if (typeof value === 'number') return errorResponse(opcode, handle, value);
    const part = value.subarray(offset, offset + this.#mtu - 1);
    return Buffer.concat([Buffer.from([opcode + 1]), part]);
  }

  #write(opcode: number, handle: number, value: Uint8Array): Buffer | null {
    const attribute = this.#attributes[handle - 1];
    const error = attribute === undefined ? ATT_ERROR.invalidHandle : attribute.write(value);
    if (opcode === ATT.writeCommand) return null;
    return error === undefined ? Buffer.from([opcode + 1]) : errorResponse(opcode, handle, error);
  }
}

export function errorResponse(opcode: number, handle: number, error: number): Buffer {
  return Buffer.concat([Buffer.from([ATT.error, opcode]), uint16(handle), Buffer.from([error])]);
}

/** A UUID as it travels: least significant byte first. */
export function uuidBytes(uuid: string): Buffer {
  return Buffer.from(uuid.replaceAll('-', ''), 'hex').reverse();
}
