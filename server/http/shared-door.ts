/**
 * The way in from the local network: HTTPS on each of this computer's addresses there. Laptops change their network
 * amid a job, so where they are is looked at again and again.
 */
import type { IncomingMessage } from 'node:http';
import { createServer, type Server } from 'node:https';
import { Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import type { FastifyInstance } from 'fastify';
import { ProblemError } from '../../protocol/problems.ts';
import { SharedConnections } from './shared-connections.ts';
import type { SharingAccess, SharingCertificate, SharingPlace } from './sharing-access.ts';
import type { Shared } from './who-asks.ts';

const LOOK_AGAIN_MS = 10_000;
/** Of one address, and in all: a page opens six, and a stream. */
const MOST_CONNECTIONS = { ofAddress: 40, inAll: 300 } as const;
const TIME_LIMITS = { handshakeTimeout: 10_000, headersTimeout: 10_000, requestTimeout: 60_000 };

interface DoorOptions {
  readonly access: SharingAccess;
  readonly server: FastifyInstance;
  readonly upgrade: (request: IncomingMessage, socket: Duplex, head: Buffer) => void;
  readonly log: (line: string) => void;
}

export class SharedDoor implements Shared {
  readonly access: SharingAccess;
  readonly connections = new SharedConnections();
  readonly #options: DoorOptions;
  readonly #doors = new Map<string, Server>();
  readonly #ofAddress = new Map<string, number>();
  #place: SharingPlace = { addresses: [], hosts: [], certificate: null };
  #port = 0;
  #looking: NodeJS.Timeout | null = null;
  #looked: Promise<void> = Promise.resolve();

  constructor(options: DoorOptions) {
    this.#options = options;
    this.access = options.access;
  }

  hosts(): readonly string[] {
    return this.#place.hosts;
  }

  /** Of the page. */
  addresses(): string[] {
    return [...this.#doors.keys()].map((address) => `https://${address}:${this.#port}/`);
  }

  fingerprint(): string {
    return this.#place.certificate?.fingerprint ?? '';
  }

  /** For whoever looks at the terminal: who was let in, and who tried. */
  say(line: string): void {
    this.#options.log(line);
  }

  /** @param port 0: any that is free @throws ProblemError `share_port_taken` */
  async open(port: number): Promise<void> {
    this.#port = port;
    await this.look();
    this.#looking = setInterval(() => {
      this.look().catch((error: unknown) => this.#options.log(`Sharing: ${String(error)}`));
    }, LOOK_AGAIN_MS);
  }

  /** Where this computer is now, and whose time is over; one look after the other. */
  look(): Promise<void> {
    this.#looked = this.#looked.catch(() => undefined).then(() => this.#lookNow());
    return this.#looked;
  }

  async close(): Promise<void> {
    if (this.#looking !== null) clearInterval(this.#looking);
    await this.#looked.catch(() => undefined);
    for (const address of this.#doors.keys()) this.#shut(address);
  }

  async #lookNow(): Promise<void> {
    for (const id of this.access.removeOver(this.connections.connected())) this.connections.end(id);
    this.#place = await this.access.place();
    const { addresses, certificate } = this.#place;
    for (const address of this.#doors.keys()) {
      if (!addresses.includes(address)) this.#shut(address);
    }
    if (certificate === null) return;
    const { certificatePem: cert, privateKeyPem: key } = certificate;
    for (const door of this.#doors.values()) door.setSecureContext({ cert, key });
    for (const address of addresses) {
      if (!this.#doors.has(address)) await this.#openAt(address, certificate);
    }
  }

  async #openAt(address: string, certificate: SharingCertificate): Promise<void> {
    const { server, upgrade } = this.#options;
    const { certificatePem: cert, privateKeyPem: key } = certificate;
    await server.ready();
    const settings = { cert, key, minVersion: 'TLSv1.2', ...TIME_LIMITS } as const;
    const door = createServer(settings, (request, answer) => {
      server.routing(request, answer);
    });
    door.maxConnections = MOST_CONNECTIONS.inAll;
    door.on('connection', (socket) => this.#count(socket));
    door.on('upgrade', upgrade);
    this.#port = await listenAt(door, address, this.#port);
    this.#doors.set(address, door);
  }

  /** Before a word is said: whoever opens connections and says nothing keeps nobody else out. */
  #count(socket: Duplex): void {
    const address = socket instanceof Socket ? (socket.remoteAddress ?? '') : '';
    const open = this.#ofAddress.get(address) ?? 0;
    if (open >= MOST_CONNECTIONS.ofAddress) {
      socket.destroy();
      return;
    }
    this.#ofAddress.set(address, open + 1);
    socket.once('close', () => {
      const left = (this.#ofAddress.get(address) ?? 1) - 1;
      if (left > 0) this.#ofAddress.set(address, left);
      else this.#ofAddress.delete(address);
    });
  }

  #shut(address: string): void {
    const door = this.#doors.get(address);
    this.#doors.delete(address);
    door?.close();
    door?.closeAllConnections();
  }
}

/** @returns the port */
function listenAt(door: Server, address: string, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    door.once('error', (error) => {
      const isTaken = 'code' in error && error.code === 'EADDRINUSE';
      const where = `port ${port} of ${address}`;
      reject(isTaken ? new ProblemError('share_port_taken', where, { cause: error }) : error);
    });
    door.listen(port, address, () => {
      const bound = door.address();
      resolve(typeof bound === 'object' && bound !== null ? bound.port : port);
    });
  });
}
