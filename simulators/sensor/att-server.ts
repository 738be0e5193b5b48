/**
 * An Attribute Protocol server over a table of services: it answers one request at a time, so every
 * request has at most one response. Source: Bluetooth Core Specification, Vol 3, Part F, section 3.4.
 */
import { uint16 } from './hci.ts';

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
} as const;

const PROPERTY = { read: 0x02, write: 0x08, notify: 0x10 } as const;
const TYPE = {
  primaryService: '2800',
  characteristic: '2803',
  clientConfiguration: '2902',
} as const;
/** The ATT_MTU of a new link (Core Specification, Vol 3, Part G, section 5.2.1). */
export const SMALLEST_MTU = 23;

export interface CharacteristicDefinition {
  readonly uuid: string;
  readonly properties: readonly (keyof typeof PROPERTY)[];
  /** The value, or the number of an ATT error. */
  readonly read?: () => Uint8Array | number;
  /** Undefined where the value was taken, or the number of an ATT error. */
  readonly write?: (value: Uint8Array) => number | undefined;
  readonly subscription?: (on: boolean) => void;
}

export interface ServiceDefinition {
  readonly uuid: string;
  readonly characteristics: readonly CharacteristicDefinition[];
}

interface Attribute {
  readonly handle: number;
  readonly type: Buffer;
  /** Last handle of a service's group. */
  groupEnd?: number;
  read(): Uint8Array | number;
  write(value: Uint8Array): number | undefined;
}

export class AttServer {
  #mtu = SMALLEST_MTU;
  readonly #largestMtu: number;
  readonly #attributes: Attribute[] = [];
  readonly #valueHandles = new Map<string, number>();
  readonly #subscribed = new Map<string, (on: boolean) => void>();

  constructor(services: readonly ServiceDefinition[], largestMtu: number) {
    this.#largestMtu = largestMtu;
    for (const service of services) this.#addService(service);
  }

  /** A link begins or ends: what the peer had negotiated and subscribed is void. */
  forgetPeer(): void {
    this.#mtu = SMALLEST_MTU;
    for (const ended of this.#subscribed.values()) ended(false);
    this.#subscribed.clear();
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
    const handle = this.#valueHandles.get(uuid);
    if (handle === undefined || !this.#subscribed.has(uuid)) return null;
    const room = this.#mtu - 3;
    return Buffer.concat([
      Buffer.from([ATT.notification]),
      uint16(handle),
      value.subarray(0, room),
    ]);
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
    if (!properties.includes('notify')) return;
    this.#add(
      TYPE.clientConfiguration,
      () => uint16(this.#subscribed.has(uuid) ? 1 : 0),
      (value) => this.#configure(definition, value),
    );
  }

  #configure({ uuid, subscription }: CharacteristicDefinition, value: Uint8Array): undefined {
    const on = ((value[0] ?? 0) & 1) === 1;
    if (on) this.#subscribed.set(uuid, subscription ?? (() => undefined));
    else this.#subscribed.delete(uuid);
    subscription?.(on);
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
