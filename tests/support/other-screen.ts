/** Another screen on the local network, as far as the bridge can tell: requests over real HTTPS, with whatever headers. */
import { readFileSync } from 'node:fs';
import { request } from 'node:https';
import { join } from 'node:path';
import { checkServerIdentity, type PeerCertificate } from 'node:tls';
import { WebSocket } from 'ws';
import { z } from 'zod';
import { pairingSchema, type Pairing, type PairedRole } from '../../protocol/sharing.ts';
import type { RunningBridge } from './running-bridge.ts';

export interface Said {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly text: string;
}

export interface Ask {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  /** Sent as JSON, or as it is where it is text. */
  readonly body?: unknown;
  /** From which of this computer's addresses it is sent. */
  readonly from?: string;
}

const certificateSchema = z.looseObject({ certificatePem: z.string() });

/** What the bridge vouches for itself with: nothing else is trusted. */
function trusted(bridge: RunningBridge): string {
  const file = readFileSync(join(bridge.dataFolder, 'sharing-certificate.json'), 'utf8');
  return certificateSchema.parse(JSON.parse(file)).certificatePem;
}

export class OtherScreen {
  readonly address: URL;
  cookie = '';
  readonly #ca: string;

  constructor(bridge: RunningBridge) {
    this.address = new URL(bridge.sharedAt().addresses[0] ?? '');
    this.#ca = trusted(bridge);
  }

  /** By the address that is asked, whatever name is then said to be meant. */
  #trust() {
    const { hostname } = this.address;
    const check = (_name: string, certificate: PeerCertificate) =>
      checkServerIdentity(hostname, certificate);
    return { ca: this.#ca, checkServerIdentity: check };
  }

  /** As the page of this bridge does; other headers take the place of its own. */
  ask(path: string, { method = 'GET', headers = {}, body, from }: Ask = {}): Promise<Said> {
    const text = typeof body === 'string' ? body : JSON.stringify(body ?? {});
    const own = {
      ...(this.cookie === '' ? {} : { cookie: this.cookie }),
      ...(method === 'POST'
        ? { origin: this.address.origin, 'content-type': 'application/json' }
        : {}),
    };
    return new Promise((resolve, reject) => {
      const asked = request(
        new URL(path, this.address),
        {
          method,
          ...this.#trust(),
          agent: false,
          headers: { ...own, ...headers },
          ...(from === undefined ? {} : { localAddress: from }),
        },
        (answer) => {
          let heard = '';
          answer.on('data', (bytes: Buffer) => (heard += bytes.toString('utf8')));
          answer.on('end', () =>
            resolve({ status: answer.statusCode ?? 0, headers: answer.headers, text: heard }),
          );
          answer.on('error', reject);
        },
      );
      asked.on('error', reject);
      asked.end(method === 'POST' ? text : undefined);
    });
  }

  post(path: string, body: unknown, from?: string): Promise<Said> {
    return this.ask(path, { method: 'POST', body, ...(from === undefined ? {} : { from }) });
  }

  /** @returns the socket, and how it ended: the status that refused it, or the code with which it was closed */
  stream(headers: Readonly<Record<string, string>> = {}): {
    readonly socket: WebSocket;
    readonly opened: Promise<boolean>;
    readonly ended: Promise<number>;
  } {
    const socket = new WebSocket(new URL('stream', this.address.href.replace('https', 'wss')), {
      ...this.#trust(),
      headers: { origin: this.address.origin, cookie: this.cookie, ...headers },
    });
    let refused = 0;
    socket.on('error', () => undefined);
    socket.on('unexpected-response', (asked, { statusCode = 0 }) => {
      refused = statusCode;
      asked.destroy();
      socket.terminate();
    });
    const ended = new Promise<number>((resolve) => {
      socket.on('close', (code) => resolve(refused === 0 ? code : refused));
    });
    const opened = Promise.race([
      new Promise<boolean>((resolve) => socket.on('open', () => resolve(true))),
      ended.then(() => false),
    ]);
    return { socket, opened, ended };
  }
}

/** A code, as the laptop asks for it. */
export async function offeredCode(bridge: RunningBridge, role: PairedRole): Promise<Pairing> {
  const answer = await fetch(new URL('api/sharing/codes', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ role }),
  });
  return pairingSchema.parse(await answer.json());
}

/** A screen that is let in. */
export async function pairedScreen(
  bridge: RunningBridge,
  role: PairedRole,
  name: string = role,
): Promise<OtherScreen> {
  const screen = new OtherScreen(bridge);
  const { secret } = await offeredCode(bridge, role);
  screen.cookie = cookieOf(await screen.post('api/pair', { code: secret, name }));
  return screen;
}

export function cookieOf({ headers }: Said): string {
  return [headers['set-cookie'] ?? ''].flat()[0]?.split(';')[0] ?? '';
}
