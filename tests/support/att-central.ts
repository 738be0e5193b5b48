/** A central without a host library, on the virtual air: whole attribute packets in and out. */
import { ATT, uuidBytes } from '../../simulators/sensor/att-server.ts';
import {
  aclPacket,
  BOUNDARY,
  COMMAND,
  commandPacket,
  EVENT,
  LE_META,
  PACKET,
  uint16,
} from '../../simulators/sensor/hci.ts';
import type { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import type { VirtualController } from '../../simulators/sensor/virtual-controller.ts';

const ATT_CHANNEL = 4;

/** What a sensor sent by itself. */
export interface Pushed {
  readonly kind: 'notification' | 'indication';
  readonly handle: number;
  readonly value: Buffer;
}

export class AttCentral {
  readonly pushed: Pushed[] = [];
  /** False: indications stay unconfirmed until `confirm` is called. */
  confirms = true;
  readonly #controller: VirtualController;
  #handle: number | null = null;
  #incoming: Buffer = Buffer.alloc(0);
  #answer: ((pdu: Buffer) => void) | null = null;
  #connected: (() => void) | null = null;
  readonly #waiting = new Set<() => void>();

  constructor(air: VirtualAir) {
    this.#controller = air.createController();
    this.#controller.attach((packet) => this.#receive(packet));
  }

  get connected(): boolean {
    return this.#handle !== null;
  }

  connect(address: Buffer): Promise<void> {
    const connected = new Promise<void>((resolve) => (this.#connected = resolve));
    const parameters = Buffer.concat([Buffer.alloc(6), address, Buffer.alloc(13)]);
    this.#controller.receive(commandPacket(COMMAND.leConnect, parameters));
    return connected;
  }

  disconnect(): void {
    if (this.#handle === null) return;
    const parameters = Buffer.concat([uint16(this.#handle), Buffer.from([0x13])]);
    this.#controller.receive(commandPacket(COMMAND.disconnect, parameters));
  }

  /** The whole response packet. */
  request(opcode: number, ...parts: Uint8Array[]): Promise<Buffer> {
    const answer = new Promise<Buffer>((resolve) => (this.#answer = resolve));
    this.send(Buffer.concat([Buffer.from([opcode]), ...parts]));
    return answer;
  }

  /** Undefined where the value was taken, else the ATT error. */
  async write(handle: number, value: Uint8Array): Promise<number | undefined> {
    const answer = await this.request(ATT.write, uint16(handle), value);
    return answer[0] === ATT.error ? answer[4] : undefined;
  }

  /** Sets a Client Characteristic Configuration, which follows its value. */
  configure(valueHandle: number, bits: number): Promise<number | undefined> {
    return this.write(valueHandle + 1, uint16(bits));
  }

  confirm(): void {
    this.send(Buffer.from([ATT.confirmation]));
  }

  /** Handle of the value of this characteristic, or undefined where it isn't there. */
  async find(uuid: string): Promise<number | undefined> {
    for (let first = 1; ;) {
      const range = [uint16(first), uint16(0xffff), uuidBytes('2803')];
      const answer = await this.request(ATT.readByType, ...range);
      const length = answer[1] ?? 0;
      if (answer[0] === ATT.error) return undefined;
      for (let offset = 2; offset < answer.length; offset += length) {
        const row = answer.subarray(offset, offset + length);
        if (row.subarray(5).equals(uuidBytes(uuid))) return row.readUInt16LE(3);
        first = row.readUInt16LE(0) + 1;
      }
    }
  }

  /** Values that came from this handle so far. */
  from(handle: number): Buffer[] {
    return this.pushed.filter((it) => it.handle === handle).map(({ value }) => value);
  }

  /** Resolves when the condition holds, looked at whenever something comes. */
  until(holds: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      const look = (): void => {
        if (!holds()) return;
        this.#waiting.delete(look);
        resolve();
      };
      this.#waiting.add(look);
      look();
    });
  }

  /** Any packet, answered or not. */
  send(pdu: Buffer): void {
    if (this.#handle === null) throw new Error('there is no link');
    const frame = Buffer.concat([uint16(pdu.length), uint16(ATT_CHANNEL), pdu]);
    for (let offset = 0; offset < frame.length; offset += 27) {
      const boundary = offset === 0 ? BOUNDARY.firstFromHost : BOUNDARY.continuing;
      const part = frame.subarray(offset, offset + 27);
      this.#controller.receive(aclPacket(this.#handle, boundary, part));
    }
  }

  #receive(packet: Buffer): void {
    if (packet[0] === PACKET.acl) this.#assemble(packet);
    const isConnected = packet[1] === EVENT.leMeta && packet[3] === LE_META.connectionComplete;
    if (packet[0] === PACKET.event && isConnected) {
      this.#handle = packet.readUInt16LE(5);
      this.#connected?.();
    }
    if (packet[0] === PACKET.event && packet[1] === EVENT.disconnectionComplete) {
      this.#handle = null;
      this.#incoming = Buffer.alloc(0);
    }
    for (const look of [...this.#waiting]) look();
  }

  #assemble(packet: Buffer): void {
    const continues = packet.readUInt16LE(1) >> 12 === BOUNDARY.continuing;
    const data = packet.subarray(5);
    this.#incoming = continues ? Buffer.concat([this.#incoming, data]) : Buffer.from(data);
    if (this.#incoming.length < 4 + this.#incoming.readUInt16LE(0)) return;
    const pdu = Buffer.from(this.#incoming.subarray(4));
    this.#incoming = Buffer.alloc(0);
    if (pdu[0] === ATT.notification) this.#push('notification', pdu);
    else if (pdu[0] === ATT.indication) {
      this.#push('indication', pdu);
      if (this.confirms) this.confirm();
    } else this.#answer?.(pdu);
  }

  #push(kind: Pushed['kind'], pdu: Buffer): void {
    this.pushed.push({ kind, handle: pdu.readUInt16LE(1), value: pdu.subarray(3) });
  }
}
