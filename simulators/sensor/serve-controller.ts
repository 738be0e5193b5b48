/**
 * Lets a host library in another process use a virtual controller: H4 over a local socket. The air
 * lives here, so the other process can be killed while the air goes on.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { H4Splitter } from './h4-splitter.ts';
import { ADAPTER, ADAPTER_PACKET } from './hci.ts';
import { ADAPTER_VARIABLE } from './virtual-socket.ts';
import type { VirtualController } from './virtual-controller.ts';

export class ServedController {
  /** For the other process: where its adapter is. */
  readonly environment: Readonly<Record<string, string>>;
  /** For the other process, after its TypeScript loader: puts the socket class in place. */
  readonly execArguments: readonly string[];

  readonly #controller: VirtualController;
  readonly #folder: string;
  readonly #address: string;
  #server: Server | null = null;
  #host: Socket | null = null;
  #state: number = ADAPTER.on;

  constructor(controller: VirtualController) {
    this.#controller = controller;
    this.#folder = mkdtempSync(join(tmpdir(), 'ebbline-air-'));
    this.#address = join(this.#folder, 'hci');
    this.environment = { [ADAPTER_VARIABLE]: this.#address };
    this.execArguments = ['--import', new URL('virtual-socket-preload.ts', import.meta.url).href];
  }

  /** Plugs the adapter in: from now on a host finds it. */
  async plugIn(): Promise<void> {
    const server = createServer((socket) => this.#accept(socket));
    this.#server = server;
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject);
      server.listen(this.#address, resolve);
    });
  }

  /** The adapter is gone: a host that looks for one finds none. */
  async unplug(): Promise<void> {
    const server = this.#server;
    this.#server = null;
    this.#host?.destroy();
    if (server === null) return;
    await new Promise<void>((resolve) => server.close(() => resolve()));
  }

  /** Switched off: links die without a word to the host, as with a real adapter. */
  turnOff(): void {
    this.#controller.powerDown();
    this.#tell(ADAPTER.off);
  }

  turnOn(): void {
    this.#tell(ADAPTER.on);
  }

  /** The host may no longer write to the adapter. */
  forbid(): void {
    this.#tell(ADAPTER.forbidden);
  }

  /** Hands the host any bytes as if the adapter had sent them. */
  corrupt(packet: Buffer): void {
    this.#host?.write(packet);
  }

  async close(): Promise<void> {
    await this.unplug();
    rmSync(this.#folder, { recursive: true, force: true });
  }

  #accept(socket: Socket): void {
    const splitter = new H4Splitter();
    this.#host = socket;
    this.#controller.attach((packet) => socket.write(packet));
    socket.on('data', (bytes) => {
      for (const packet of splitter.push(bytes)) this.#controller.receive(packet);
    });
    // A host that was killed leaves a reset connection behind; 'close' follows and says it all.
    socket.on('error', () => undefined);
    socket.on('close', () => {
      if (this.#host !== socket) return;
      this.#host = null;
      this.#controller.detach();
    });
    this.#tell(this.#state);
  }

  #tell(state: number): void {
    this.#state = state;
    this.#host?.write(Buffer.from([ADAPTER_PACKET, state]));
  }
}

/** Serves a controller that is plugged in and switched on. */
export async function serveController(controller: VirtualController): Promise<ServedController> {
  const served = new ServedController(controller);
  await served.plugIn();
  return served;
}
