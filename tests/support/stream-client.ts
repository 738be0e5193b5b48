/** A bare client of the stream, for tests: keeps what it hears and waits for what it is asked. */
import { WebSocket } from 'ws';
import { serverMessageSchema } from '../../protocol/stream.ts';
import type { ClientMessage, ServerMessage } from '../../protocol/stream.ts';

export class StreamClient {
  readonly heard: ServerMessage[] = [];
  readonly #socket: WebSocket;
  readonly #watchers = new Set<() => void>();
  closeCode: number | null = null;

  constructor(url: string, headers: Readonly<Record<string, string>> = {}) {
    this.#socket = new WebSocket(new URL('stream', url.replace('http', 'ws')), { headers });
    this.#socket.on('message', (data) => {
      if (!Buffer.isBuffer(data)) throw new Error('the stream is text');
      this.heard.push(serverMessageSchema.parse(JSON.parse(data.toString('utf8'))));
      for (const watcher of this.#watchers) watcher();
    });
    this.#socket.on('error', () => undefined);
    this.#socket.on('close', (code) => {
      this.closeCode = code;
      for (const watcher of this.#watchers) watcher();
    });
  }

  send(message: ClientMessage | string): void {
    this.#socket.send(typeof message === 'string' ? message : JSON.stringify(message));
  }

  /** Resolves once the condition holds; the test's own time limit ends a vain wait. */
  until(condition: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      const look = (): void => {
        if (!condition()) return;
        this.#watchers.delete(look);
        resolve();
      };
      this.#watchers.add(look);
      look();
    });
  }

  indexes(): number[] {
    return this.heard.flatMap((message) =>
      message.type === 'backfill' || message.type === 'readings' ? message.columns.index : [],
    );
  }

  close(): void {
    this.#socket.terminate();
  }
}
