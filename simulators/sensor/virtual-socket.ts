/**
 * What stands in for the class of the native Bluetooth socket in a process whose adapter is
 * virtual. The host libraries above it stay as they are.
 */
import { EventEmitter } from 'node:events';
import { existsSync } from 'node:fs';
import { createConnection, type Socket } from 'node:net';
import { H4Splitter } from './h4-splitter.ts';
import { ADAPTER, ADAPTER_PACKET } from './hci.ts';

/** Environment variable with the path of the local socket behind which the controller is. */
export const ADAPTER_VARIABLE = 'EBBLINE_VIRTUAL_ADAPTER';

export class VirtualSocket extends EventEmitter {
  /** The second library asks for its class by the name of a driver. */
  static loadDriver(): typeof VirtualSocket {
    return VirtualSocket;
  }

  readonly #splitter = new H4Splitter();
  #connection: Socket | null = null;
  /** A real adapter's state is known at once; this one is on until it says otherwise. */
  #state: number = ADAPTER.on;

  bindRaw(): number {
    const path = process.env[ADAPTER_VARIABLE] ?? '';
    if (!existsSync(path)) throw systemError('ENODEV', 'No such device');
    const connection = createConnection(path);
    connection.on('data', (bytes) => this.#receive(bytes));
    connection.on('error', () => undefined);
    connection.on('close', () => {
      this.#state = ADAPTER.off;
    });
    this.#connection = connection;
    return 0;
  }

  bindControl(): void {
    // The peripheral's libraries tell the kernel their keys; nobody pairs here.
  }

  isDevUp(): boolean {
    return this.#state !== ADAPTER.off;
  }

  write(packet: Uint8Array): void {
    if (this.#state === ADAPTER.forbidden) {
      this.emit('error', systemError('EPERM', 'Operation not permitted'));
    } else if (this.#state === ADAPTER.on) {
      // The libraries go on using a buffer that they have handed over.
      this.#connection?.write(Buffer.from(packet));
    }
  }

  start(): void {
    // Bytes flow from the moment it is bound.
  }

  stop(): void {
    this.#connection?.destroy();
  }

  setFilter(): void {
    // Nobody else's packets come over this socket.
  }

  /** A real socket brings one packet at a time: what one of them is thrown over is not the next one's. */
  #deliver(packet: Buffer): void {
    try {
      this.emit('data', packet);
    } catch (error) {
      queueMicrotask(() => {
        throw error;
      });
    }
  }

  #receive(bytes: Uint8Array): void {
    for (const packet of this.#splitter.push(bytes)) {
      if (packet[0] !== ADAPTER_PACKET) {
        this.#deliver(packet);
        continue;
      }
      this.#state = packet[1] ?? ADAPTER.off;
      if (this.#state === ADAPTER.forbidden) {
        this.emit('error', systemError('EPERM', 'Operation not permitted'));
      }
    }
  }
}

function systemError(code: string, meaning: string): Error {
  return Object.assign(new Error(`${code}, ${meaning}`), { code });
}
