/** The stream's WebSockets, on loopback and on the local network alike. */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { type WebSocket, WebSocketServer } from 'ws';
import { ProblemError } from '../../protocol/problems.ts';
import { statusOf } from './problem-answers.ts';
import { STREAM_ROUTE } from './route-roles.ts';
import { type Asking, type Shared, whoAsks } from './who-asks.ts';

const MOST_MESSAGE_BYTES = 4 * 1024;
/** Of a request: who catches up with a day of eight sensors sends some fourteen hundred. */
const MESSAGE_COST = 0.25;
const STREAM_PATH = '/stream';
/** RFC 6455, section 7.4.1. */
const POLICY_VIOLATION = 1008;

export class StreamSockets {
  readonly #sockets = new WebSocketServer({ noServer: true, maxPayload: MOST_MESSAGE_BYTES });
  readonly #onScreen: (socket: WebSocket) => void;
  readonly #shared: () => Shared | null;

  constructor(onScreen: (socket: WebSocket) => void, shared: () => Shared | null) {
    this.#onScreen = onScreen;
    this.#shared = shared;
  }

  /** Of a server's 'upgrade'. */
  readonly upgrade = (request: IncomingMessage, socket: Duplex, head: Buffer): void => {
    // Whoever is gone before the answer is no failure of the bridge.
    socket.on('error', () => socket.destroy());
    try {
      if (request.url !== STREAM_PATH) throw new ProblemError('not_found');
      const asking = whoAsks(request, STREAM_ROUTE, this.#shared());
      this.#holdPlace(asking, request.socket);
      this.#sockets.handleUpgrade(request, socket, head, (opened) => {
        this.#limit(opened, asking);
        this.#onScreen(opened);
      });
    } catch (error) {
      refuse(socket, error);
    }
  };

  close(): void {
    this.#sockets.close();
  }

  #holdPlace({ screen }: Asking, socket: Duplex): void {
    if (screen === null || this.#shared()?.connections.holdStream(screen.id, socket) === true)
      return;
    throw new ProblemError('too_many_requests', 'streams');
  }

  /** What a screen asks for by its stream counts with what it asks for otherwise. */
  #limit(socket: WebSocket, { screen }: Asking): void {
    if (screen === null) return;
    socket.on('message', () => {
      if (this.#shared()?.access.mayAsk(screen.id, MESSAGE_COST) === true) return;
      socket.close(POLICY_VIOLATION, 'too many messages');
    });
  }
}

function refuse(socket: Duplex, error: unknown): void {
  const status = error instanceof ProblemError ? statusOf(error.code) : 500;
  // A peer that stays would keep it open.
  socket.on('finish', () => socket.destroy());
  const why = error instanceof ProblemError ? error.code : 'failed';
  socket.end(`HTTP/1.1 ${status} ${why}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}
