/**
 * Data on its way to a controller: cut into packets, and never more of them at a time than the
 * controller has buffers for. Source: Bluetooth Core Specification, Vol 4, Part E, section 4.1.1.
 */
import { aclPacket, BOUNDARY } from './hci.ts';

/** A setting of ours, far more than a small device holds, so that a test that hurries loses nothing. */
const MOST_WAITING = 4000;

export class AclSender {
  readonly #toController: (packet: Buffer) => void;
  #packetBytes = 27;
  #credits = 1;
  #handle: number | null = null;
  #waiting: Buffer[] = [];
  #inFlight = 0;
  #onRoom: (() => void) | null = null;
  #onDrained: (() => void)[] = [];

  constructor(toController: (packet: Buffer) => void) {
    this.#toController = toController;
  }

  /** What the controller has said of its buffers. */
  setBuffers(packetBytes: number, count: number): void {
    this.#packetBytes = packetBytes;
    this.#credits = count;
  }

  begin(handle: number): void {
    this.end();
    this.#handle = handle;
  }

  /** The link is over, and with it whatever was on its way. */
  end(): void {
    this.#handle = null;
    this.#waiting = [];
    this.#inFlight = 0;
    this.#onRoom = null;
    this.#tellDrained();
  }

  /** @returns false where there is no link, or too much is waiting already */
  send(frame: Buffer): boolean {
    const handle = this.#handle;
    if (handle === null || this.#waiting.length >= MOST_WAITING) return false;
    for (let offset = 0; offset < frame.length; offset += this.#packetBytes) {
      const boundary = offset === 0 ? BOUNDARY.firstFromHost : BOUNDARY.continuing;
      const part = frame.subarray(offset, offset + this.#packetBytes);
      this.#waiting.push(aclPacket(handle, boundary, part));
    }
    this.#pass();
    return true;
  }

  /** The controller has passed on so many packets. */
  completed(count: number): void {
    this.#inFlight = Math.max(0, this.#inFlight - count);
    this.#pass();
    const onRoom = this.#onRoom;
    if (onRoom !== null && this.#hasRoom()) {
      this.#onRoom = null;
      onRoom();
    }
    if (this.#inFlight === 0) this.#tellDrained();
  }

  whenRoom(call: () => void): void {
    if (this.#hasRoom()) setImmediate(call);
    else this.#onRoom = call;
  }

  /** Resolves when everything has been passed on, or the link is over. */
  drained(): Promise<void> {
    if (this.#inFlight === 0 && this.#waiting.length === 0) return Promise.resolve();
    return new Promise((done) => this.#onDrained.push(done));
  }

  #hasRoom(): boolean {
    return this.#waiting.length === 0 && this.#inFlight < this.#credits;
  }

  #pass(): void {
    while (this.#inFlight < this.#credits) {
      const packet = this.#waiting.shift();
      if (packet === undefined) return;
      this.#inFlight += 1;
      this.#toController(packet);
    }
  }

  #tellDrained(): void {
    for (const done of this.#onDrained.splice(0)) done();
  }
}
