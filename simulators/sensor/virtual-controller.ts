/**
 * A Low Energy controller without a radio: it speaks HCI with one host and reaches other
 * controllers through the air it is in. Advertising, scanning, one connection attempt at a time,
 * links with buffer credits, link loss. Not modelled: pairing, extended advertising, radio timing.
 */
import { Advertiser, Search } from './advertising.ts';
import { FIXED_ANSWERS } from './fixed-answers.ts';
import { aclPacket, addressBytes, BOUNDARY, COMMAND, PACKET, STATUS } from './hci.ts';
import {
  ADVERTISEMENT,
  advertisingReport,
  commandComplete,
  commandStatus,
  completedPacket,
  connectionComplete,
  connectionUpdated,
  disconnectionComplete,
  ROLE,
  signalByte,
} from './hci-events.ts';

/** What a controller needs of the air around it. */
export interface Surroundings {
  /** Received signal strength of everything, dBm. */
  readonly signalDbm: number;
  /** False: connection attempts stay pending for ever, as with a peer at the edge of reach. */
  readonly acceptsConnections: boolean;
  readonly advertisingIntervalMs: number;
  others(than: VirtualController): Iterable<VirtualController>;
}

export type ToHost = (packet: Buffer) => void;

interface Link {
  readonly peer: VirtualController;
  readonly peerHandle: number;
}

export class VirtualController {
  readonly address: Buffer;
  /** A hung controller swallows everything and says nothing. */
  hung = false;
  /** How often a host asked for a connection, for tests. */
  connectionAttempts = 0;

  readonly #air: Surroundings;
  #toHost: ToHost | null = null;
  #links = new Map<number, Link>();
  #nextHandle = 0x40;
  readonly #advertiser: Advertiser;
  readonly #search = new Search();
  /** The address that the host waits to be connected with. */
  #awaited: Buffer | null = null;

  /** Commands that are done at once, with what they answer beside 'success'; see FIXED_ANSWERS too. */
  readonly #answers = new Map<number, (parameters: Buffer) => Buffer[]>([
    [COMMAND.readAddress, () => [this.address]],
    [
      COMMAND.readRssi,
      (parameters) => [parameters.subarray(0, 2), signalByte(this.#air.signalDbm)],
    ],
    [COMMAND.leSetAdvertisingData, (parameters) => this.#advertise(parameters)],
    [COMMAND.leSetScanResponse, (parameters) => this.#respondToScans(parameters)],
    [COMMAND.leSetScan, (parameters) => this.#scan(parameters)],
    [COMMAND.reset, () => this.#start()],
  ]);

  /** Commands that answer for themselves, because more follows from them. */
  readonly #actions = new Map<number, (parameters: Buffer, opcode: number) => void>([
    [COMMAND.leSetAdvertising, (parameters, opcode) => this.#switchAdvertising(parameters, opcode)],
    [COMMAND.leConnect, (parameters, opcode) => this.#connect(parameters, opcode)],
    [COMMAND.leCancelConnect, (_, opcode) => this.#cancelConnect(opcode)],
    [
      COMMAND.leUpdateConnection,
      (parameters, opcode) => this.#updateConnection(parameters, opcode),
    ],
    [COMMAND.disconnect, (parameters, opcode) => this.#disconnect(parameters, opcode)],
  ]);

  constructor(air: Surroundings, address: string) {
    this.#air = air;
    this.address = addressBytes(address);
    this.#advertiser = new Advertiser(air.advertisingIntervalMs, () => {
      for (const other of air.others(this)) other.#hear(this);
    });
  }

  /** Connects a host; another one that was there is forgotten. */
  attach(toHost: ToHost): void {
    this.#toHost = toHost;
  }

  /**
   * The host is gone. A driver ends the links of a host that dies (on Linux the kernel owns them),
   * so the peers notice.
   */
  detach(): void {
    this.#toHost = null;
    this.powerDown();
  }

  /** Takes a packet from the host; answers come later, never inside this call. */
  receive(packet: Buffer): void {
    setImmediate(() => {
      if (this.hung) return;
      if (packet[0] === PACKET.acl) this.#forward(packet);
      if (packet[0] === PACKET.command) {
        this.#execute(packet.readUInt16LE(1), packet.subarray(4));
      }
    });
  }

  /** Out of reach: both hosts hear of the timeout. */
  loseLinks(): void {
    for (const handle of [...this.#links.keys()]) {
      this.#endLink(handle, STATUS.connectionTimeout, STATUS.connectionTimeout);
    }
  }

  /** Loses its power: the peers notice a timeout, its own host hears nothing. */
  powerDown(): void {
    for (const handle of [...this.#links.keys()]) {
      this.#endLink(handle, null, STATUS.connectionTimeout);
    }
    this.#advertiser.switch(false);
    this.#search.stop();
    this.#awaited = null;
  }

  /** Another program on the same adapter stops the scan; the host sees that program's command. */
  stopScanFromOutside(): void {
    this.#search.stop();
    this.#toHost?.(Buffer.from([PACKET.command, 0x0c, 0x20, 2, 0, 1]));
  }

  get linkCount(): number {
    return this.#links.size;
  }

  #execute(opcode: number, parameters: Buffer): void {
    const fixed = FIXED_ANSWERS.get(opcode);
    const answer = this.#answers.get(opcode);
    const action = this.#actions.get(opcode);
    if (fixed !== undefined) this.#answer(opcode, STATUS.success, ...fixed);
    else if (answer !== undefined) this.#answer(opcode, STATUS.success, ...answer(parameters));
    else if (action !== undefined) action(parameters, opcode);
    else this.#answer(opcode, STATUS.unknownCommand);
  }

  #start(): Buffer[] {
    this.powerDown();
    return [];
  }

  #advertise(parameters: Buffer): Buffer[] {
    this.#advertiser.data = parameters.subarray(1, 1 + parameters.readUInt8(0));
    return [];
  }

  #respondToScans(parameters: Buffer): Buffer[] {
    this.#advertiser.scanResponse = parameters.subarray(1, 1 + parameters.readUInt8(0));
    return [];
  }

  #switchAdvertising(parameters: Buffer, opcode: number): void {
    this.#answer(opcode, STATUS.success);
    this.#advertiser.switch(parameters[0] === 1);
  }

  #scan(parameters: Buffer): Buffer[] {
    this.#search.set(parameters[0] === 1, parameters[1] === 0);
    return [];
  }

  #connect(parameters: Buffer, opcode: number): void {
    this.connectionAttempts += 1;
    // Not every real controller can search and connect at the same time; this one can't.
    const busy = this.#awaited !== null || this.#search.on;
    this.#say(commandStatus(opcode, busy ? STATUS.disallowed : STATUS.success));
    if (busy) return;
    this.#awaited = parameters.subarray(6, 12);
    this.#connectWhenHeard();
  }

  #updateConnection(parameters: Buffer, opcode: number): void {
    this.#say(commandStatus(opcode, STATUS.success));
    this.#say(connectionUpdated(parameters.subarray(0, 2), parameters.subarray(4, 10)));
  }

  #disconnect(parameters: Buffer, opcode: number): void {
    this.#say(commandStatus(opcode, STATUS.success));
    this.#endLink(parameters.readUInt16LE(0), STATUS.localHostEnded, STATUS.remoteUserEnded);
  }

  /** An advertisement arrives: reported while scanning, and what a pending connection waits for. */
  #hear(from: VirtualController): void {
    if (this.hung || from.hung) return;
    if (this.#search.tellsOf(from)) {
      this.#report(from.address, ADVERTISEMENT.connectable, from.#advertiser.data);
      this.#report(from.address, ADVERTISEMENT.scanResponse, from.#advertiser.scanResponse);
    }
    if (this.#awaited?.equals(from.address) === true) this.#connectWhenHeard();
  }

  #report(address: Buffer, kind: number, data: Buffer): void {
    this.#say(advertisingReport({ address, kind, data, signalDbm: this.#air.signalDbm }));
  }

  /** Real controllers connect on the peer's next advertisement, and until then wait for ever. */
  #connectWhenHeard(): void {
    const awaited = this.#awaited;
    if (awaited === null || !this.#air.acceptsConnections) return;
    for (const peer of this.#air.others(this)) {
      if (!peer.#advertiser.on || peer.hung || !peer.address.equals(awaited)) continue;
      const handle = this.#nextHandle++;
      const peerHandle = peer.#nextHandle++;
      this.#links.set(handle, { peer, peerHandle });
      peer.#links.set(peerHandle, { peer: this, peerHandle: handle });
      peer.#advertiser.switch(false);
      this.#awaited = null;
      peer.#say(connectionComplete(STATUS.success, peerHandle, ROLE.peripheral, this.address));
      this.#say(connectionComplete(STATUS.success, handle, ROLE.central, peer.address));
      return;
    }
  }

  #cancelConnect(opcode: number): void {
    const awaited = this.#awaited;
    this.#answer(opcode, awaited === null ? STATUS.disallowed : STATUS.success);
    if (awaited === null) return;
    this.#awaited = null;
    this.#say(connectionComplete(STATUS.noConnection, 0, ROLE.central, awaited));
  }

  #forward(packet: Buffer): void {
    const handle = packet.readUInt16LE(1) & 0x0fff;
    const boundary = packet.readUInt16LE(1) >> 12;
    const link = this.#links.get(handle);
    if (link === undefined) return;
    this.#say(completedPacket(handle));
    if (link.peer.hung) return;
    const onward = boundary === BOUNDARY.continuing ? BOUNDARY.continuing : BOUNDARY.firstToHost;
    link.peer.#toHost?.(aclPacket(link.peerHandle, onward, packet.subarray(5)));
  }

  #endLink(handle: number, ownReason: number | null, peerReason: number): void {
    const link = this.#links.get(handle);
    if (link === undefined) return;
    this.#links.delete(handle);
    link.peer.#links.delete(link.peerHandle);
    if (ownReason !== null) this.#say(disconnectionComplete(handle, ownReason));
    link.peer.#say(disconnectionComplete(link.peerHandle, peerReason));
  }

  #answer(opcode: number, status: number, ...results: Buffer[]): void {
    this.#say(commandComplete(opcode, status, results));
  }

  #say(packet: Buffer): void {
    if (!this.hung) this.#toHost?.(packet);
  }
}
