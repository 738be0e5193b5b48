/**
 * A small Bluetooth host in the role of a peripheral: it advertises, takes one connection, and lets
 * an attribute server answer what comes over it. Source of the layers: Bluetooth Core
 * Specification, Vol 3, Part A (L2CAP) and Part C, section 11 (advertising data).
 */
import { AclSender } from './acl-sender.ts';
import { ATT, AttServer, uuidBytes } from './att-server.ts';
import { BOUNDARY, COMMAND, commandPacket, EVENT, LE_META } from './hci.ts';
import { PACKET, STATUS, uint16 } from './hci.ts';
import type { PeripheralHost, ServiceDefinition } from './service-definition.ts';
import type { VirtualController } from './virtual-controller.ts';

export interface GattPeripheralOptions {
  readonly name: string;
  /** The one service that the advertisement names. */
  readonly advertisedService: string;
  readonly services: readonly ServiceDefinition[];
  /** The largest ATT_MTU that it agrees to. */
  readonly largestMtu: number;
  /** Whether it advertises after the end of a link, as it must. */
  readonly advertisesAgain: boolean;
}

/** L2CAP channel of the Attribute Protocol. */
const ATT_CHANNEL = 0x0004;
const AD_TYPE = { flags: 0x01, services16: 0x03, services128: 0x07, completeName: 0x09 } as const;
/** Advertising and scan response data hold at most 31 bytes. */
const ADVERTISING_BYTES = 31;

const ALL_EVENTS = Buffer.alloc(8, 0xff);
/** The five of Bluetooth 4.0. */
const LE_EVENTS = Buffer.from([0x1f, 0, 0, 0, 0, 0, 0, 0]);
/** Connectable, every 100 ms (160 times 0.625 ms), public addresses, on all three channels. */
const ADVERTISING_PARAMETERS = Buffer.concat([
  uint16(160),
  uint16(160),
  Buffer.alloc(9),
  Buffer.from([0x07, 0]),
]);

export class GattPeripheral implements PeripheralHost {
  /** Answers a request in place of the server, `null` for silence; `undefined` leaves it alone. */
  intercept: ((request: Buffer) => Buffer | null | undefined) | null = null;

  readonly #controller: VirtualController;
  readonly #options: GattPeripheralOptions;
  readonly #server: AttServer;
  readonly #sender: AclSender;
  /** Indications that wait for the confirmation of the one before; the first is on its way. */
  #indications: Buffer[] = [];
  #handle: number | null = null;
  #reachable = true;
  #incoming: Buffer = Buffer.alloc(0);

  constructor(controller: VirtualController, options: GattPeripheralOptions) {
    this.#controller = controller;
    this.#options = options;
    this.#server = new AttServer(options.services, options.largestMtu);
    this.#sender = new AclSender((packet) => controller.receive(packet));
    controller.attach((packet) => this.#receive(packet));
    this.#startUp();
  }

  get connected(): boolean {
    return this.#handle !== null;
  }

  /** Sends to a peer that has subscribed; false where there is none. */
  notify(characteristicUuid: string, value: Uint8Array): boolean {
    const notification = this.#server.notification(characteristicUuid, value);
    return notification !== null && this.#send(notification);
  }

  /** The same with confirmation; one that waits for that of another counts as sent. */
  indicate(characteristicUuid: string, value: Uint8Array): boolean {
    const indication = this.#server.indication(characteristicUuid, value);
    if (indication === null || this.#handle === null) return false;
    this.#indications.push(indication);
    return this.#indications.length > 1 || this.#send(indication);
  }

  /** Any bytes in place of what the protocol would have, for peers that break it. */
  sendAnything(pdu: Buffer): boolean {
    return this.#send(pdu);
  }

  whenRoom(call: () => void): void {
    this.#sender.whenRoom(call);
  }

  /** Resolves when everything that was sent has reached the central's controller, or the link is over. */
  drained(): Promise<void> {
    return this.#sender.drained();
  }

  /** Out of reach, or switched off: the link is lost and nothing is advertised. */
  vanish(): void {
    this.#reachable = false;
    this.#command(COMMAND.leSetAdvertising, Buffer.from([0]));
    this.#controller.loseLinks();
  }

  comeBack(): void {
    this.#reachable = true;
    this.#startUp();
  }

  #startUp(): void {
    const { name, advertisedService } = this.#options;
    const general = Buffer.from([2, AD_TYPE.flags, 0x06]);
    const uuid = uuidBytes(advertisedService);
    const type = uuid.length === 2 ? AD_TYPE.services16 : AD_TYPE.services128;
    const services = advertisingField(type, uuid);
    const label =
      name === '' ? Buffer.alloc(0) : advertisingField(AD_TYPE.completeName, Buffer.from(name));
    this.#command(COMMAND.reset, Buffer.alloc(0));
    this.#command(COMMAND.setEventMask, ALL_EVENTS);
    this.#command(COMMAND.leSetEventMask, LE_EVENTS);
    this.#command(COMMAND.leReadBufferSize, Buffer.alloc(0));
    this.#command(COMMAND.leSetAdvertisingParameters, ADVERTISING_PARAMETERS);
    this.#command(COMMAND.leSetAdvertisingData, padded(Buffer.concat([general, services])));
    this.#command(COMMAND.leSetScanResponse, padded(label));
    this.#command(COMMAND.leSetAdvertising, Buffer.from([1]));
  }

  #command(opcode: number, parameters: Buffer): void {
    this.#controller.receive(commandPacket(opcode, parameters));
  }

  #receive(packet: Buffer): void {
    if (packet[0] === PACKET.acl) this.#assemble(packet);
    if (packet[0] !== PACKET.event) return;
    const event: number = packet.readUInt8(1);
    switch (event) {
      case EVENT.leMeta: {
        const isConnected = packet[3] === LE_META.connectionComplete;
        if (isConnected && packet[4] === STATUS.success) this.#begin(packet.readUInt16LE(5));
        return;
      }
      case EVENT.disconnectionComplete:
        this.#end();
        return;
      case EVENT.completedPackets:
        // One link at a time, so one entry: its handle, then the count.
        this.#sender.completed(packet.readUInt16LE(6));
        return;
      case EVENT.commandComplete:
        if (packet.readUInt16LE(4) === COMMAND.leReadBufferSize) {
          this.#sender.setBuffers(packet.readUInt16LE(7), packet.readUInt8(9));
        }
        return;
      default:
    }
  }

  #begin(handle: number): void {
    this.#server.forgetPeer();
    this.#handle = handle;
    this.#sender.begin(handle);
  }

  #end(): void {
    this.#handle = null;
    this.#sender.end();
    this.#incoming = Buffer.alloc(0);
    this.#indications = [];
    this.#server.forgetPeer();
    const { advertisesAgain } = this.#options;
    if (this.#reachable && advertisesAgain)
      this.#command(COMMAND.leSetAdvertising, Buffer.from([1]));
  }

  #assemble(packet: Buffer): void {
    const continues = packet.readUInt16LE(1) >> 12 === BOUNDARY.continuing;
    const data = packet.subarray(5);
    this.#incoming = continues ? Buffer.concat([this.#incoming, data]) : Buffer.from(data);
    if (this.#incoming.length < 4) return;
    const length = this.#incoming.readUInt16LE(0);
    if (this.#incoming.length < 4 + length) return;
    const channel = this.#incoming.readUInt16LE(2);
    const request = this.#incoming.subarray(4, 4 + length);
    this.#incoming = Buffer.alloc(0);
    if (channel === ATT_CHANNEL) this.#answer(request);
  }

  #answer(request: Buffer): void {
    const forced = this.intercept?.(request);
    if (forced === undefined && request[0] === ATT.confirmation) this.#confirmed();
    const response = forced === undefined ? this.#server.respond(request) : forced;
    if (response !== null) this.#send(response);
  }

  #confirmed(): void {
    this.#indications.shift();
    const [next] = this.#indications;
    if (next !== undefined) this.#send(next);
  }

  #send(pdu: Buffer): boolean {
    return this.#sender.send(Buffer.concat([uint16(pdu.length), uint16(ATT_CHANNEL), pdu]));
  }
}

function advertisingField(type: number, data: Buffer): Buffer {
  return Buffer.concat([Buffer.from([data.length + 1, type]), data]);
}

function padded(data: Buffer): Buffer {
  if (data.length > ADVERTISING_BYTES) {
    throw new RangeError(`${data.length} bytes of advertising data where ${ADVERTISING_BYTES} fit`);
  }
  const rest = Buffer.alloc(ADVERTISING_BYTES - data.length);
  return Buffer.concat([Buffer.from([data.length]), data, rest]);
}
