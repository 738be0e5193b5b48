/**
 * What is asked and not answered to its end yet. A long file may take as long as it needs, but it has to come, and the
 * answer has to be taken: whoever stands still holds nothing for ever.
 */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { ProblemError } from '../../protocol/problems.ts';

export interface Pace {
  readonly lookEveryMs: number;
  /** Of a body that we wait for, from one look to the next. */
  readonly leastBodyBytes: number;
  /** Looks at which nothing more of an answer was taken: a download may be paused for a while. */
  readonly looksAtRest: number;
}

/**
 * Ten minutes for an answer. What is sent on this computer comes a thousand times as fast: at this pace the largest
 * file is here in a quarter of an hour.
 */
const PACE: Pace = { lookEveryMs: 30_000, leastBodyBytes: 4 * 2 ** 20, looksAtRest: 20 };
/** In a row: the first may come soon after the beginning, or after this process itself stood still. */
const SLOW_LOOKS = 2;

interface Exchange {
  readonly request: IncomingMessage;
  readonly reply: FastifyReply;
  /** Of its connection, at the last look. */
  readBytes: number;
  writtenBytes: number;
  slowLooks: number;
  looksAtRest: number;
}

export class Exchanges {
  readonly #pace: Pace;
  readonly #open = new Set<Exchange>();

  constructor(server: FastifyInstance, pace = PACE) {
    this.#pace = pace;
    server.addHook('onRequest', async ({ raw: request }, reply) => {
      const { bytesRead: readBytes, bytesWritten: writtenBytes } = request.socket;
      this.#open.add({ request, reply, readBytes, writtenBytes, slowLooks: 0, looksAtRest: 0 });
      reply.raw.once('close', () => this.#forgetOver());
    });
    const timer = setInterval(() => this.#look(), pace.lookEveryMs);
    server.addHook('onClose', () => clearInterval(timer));
  }

  /** Connections on which something was asked. */
  busy(): Set<Duplex> {
    return new Set([...this.#open].map(({ request }) => request.socket));
  }

  /** An answer that was given early leaves a body that may still be on its way. */
  #forgetOver(): void {
    for (const exchange of this.#open) {
      const { request, reply } = exchange;
      const isOver = request.complete || request.socket.destroyed;
      if (reply.raw.closed && isOver) this.#open.delete(exchange);
    }
  }

  #look(): void {
    this.#forgetOver();
    for (const exchange of this.#open) {
      const { request, reply } = exchange;
      const { bytesRead, bytesWritten } = request.socket;
      exchange.slowLooks = this.#comes(exchange) ? 0 : exchange.slowLooks + 1;
      if (exchange.slowLooks >= SLOW_LOOKS) stall(exchange);
      const waits = reply.raw.writableLength > 0 && bytesWritten === exchange.writtenBytes;
      exchange.looksAtRest = waits ? exchange.looksAtRest + 1 : 0;
      if (exchange.looksAtRest > this.#pace.looksAtRest) request.socket.destroy();
      exchange.readBytes = bytesRead;
      exchange.writtenBytes = bytesWritten;
    }
  }

  #comes({ request, readBytes }: Exchange): boolean {
    if (request.complete) return true;
    // What has come and was not taken waits for us: the disk may be slow.
    if (request.readableLength > 0) return true;
    return request.socket.bytesRead - readBytes >= this.#pace.leastBodyBytes;
  }
}

function stall({ request, reply }: Exchange): void {
  const end = (): void => void request.socket.destroy();
  if (reply.sent) {
    end();
    return;
  }
  reply.raw.once('finish', end);
  void reply.header('connection', 'close').send(new ProblemError('request_stalled'));
}
