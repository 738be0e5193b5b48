/** Cuts a stream of bytes into H4 packets. */
import { ADAPTER_PACKET, PACKET } from './hci.ts';

export class H4Splitter {
  #rest: Buffer = Buffer.alloc(0);

  /**
   * The packets that these bytes complete.
   * @throws Error where a packet begins with a byte that H4 doesn't know: nothing after it can be read.
   */
  push(bytes: Uint8Array): Buffer[] {
    this.#rest = Buffer.concat([this.#rest, bytes]);
    const packets: Buffer[] = [];
    for (;;) {
      const length = packetLength(this.#rest);
      if (length === undefined || this.#rest.length < length) return packets;
      packets.push(Buffer.from(this.#rest.subarray(0, length)));
      this.#rest = this.#rest.subarray(length);
    }
  }
}

/** Length of the packet that starts here, or undefined while its header is incomplete. */
function packetLength(bytes: Buffer): number | undefined {
  const kind = bytes[0];
  switch (kind) {
    case undefined:
      return undefined;
    case PACKET.command:
      return bytes.length < 4 ? undefined : 4 + bytes.readUInt8(3);
    case PACKET.acl:
      return bytes.length < 5 ? undefined : 5 + bytes.readUInt16LE(3);
    case PACKET.event:
      return bytes.length < 3 ? undefined : 3 + bytes.readUInt8(2);
    case ADAPTER_PACKET:
      return 2;
    default:
      throw new Error(`no H4 packet begins with 0x${kind.toString(16)}`);
  }
}
