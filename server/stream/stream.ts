/** The stream: greets every screen and passes on what is durable and what the sources are doing. */
import type { WebSocket } from 'ws';
import type { Recording } from '../../protocol/recording.ts';
import type { RecordState } from '../../protocol/record-state.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { clientMessageSchema, STREAM_VERSION, TICK_INTERVAL_MS } from '../../protocol/stream.ts';
import type { Platform, RecordMessage, ServerMessage } from '../../protocol/stream.ts';
import { Subscriber } from './subscriber.ts';
import type { RecordView } from './subscriber.ts';

interface StreamOptions {
  readonly record: RecordView;
  readonly softwareVersion: string;
  readonly platform: Platform;
  /** For the greeting: the recordings that can still grow, or the latest one. */
  readonly recordings: () => Recording[];
}

/** WebSocket close code for a message that breaks the protocol (RFC 6455, section 7.4.1). */
const POLICY_VIOLATION = 1008;

export class Stream {
  readonly #options: StreamOptions;
  readonly #subscribers = new Set<Subscriber>();
  readonly #sources = new Map<string, SourceState>();
  readonly #sockets = new Set<WebSocket>();
  readonly #ticking: NodeJS.Timeout;
  #record: RecordState = { kind: 'kept' };

  constructor(options: StreamOptions) {
    this.#options = options;
    this.#ticking = setInterval(() => this.#tellAll({ type: 'tick' }), TICK_INTERVAL_MS);
  }

  /** A screen has connected. */
  attach(socket: WebSocket): void {
    const subscriber = new Subscriber(this.#options.record, {
      send: (message) => socket.send(JSON.stringify(message)),
      waitingBytes: () => socket.bufferedAmount,
      drop: () => socket.terminate(),
    });
    socket.on('error', () => socket.terminate());
    socket.on('close', () => {
      this.#subscribers.delete(subscriber);
      this.#sockets.delete(socket);
    });
    socket.on('message', (data) => {
      const message = Buffer.isBuffer(data) ? parseClientMessage(data.toString('utf8')) : null;
      if (message) subscriber.hear(message);
      else socket.close(POLICY_VIOLATION, 'not a message of this protocol');
    });
    this.#subscribers.add(subscriber);
    this.#sockets.add(socket);
    subscriber.tell(this.#greeting());
    subscriber.tell({ type: 'record', record: this.#record });
  }

  publish(message: RecordMessage): void {
    for (const subscriber of this.#subscribers) subscriber.publish(message);
  }

  sourceState(source: SourceState): void {
    this.#sources.set(source.id, source);
    this.#tellAll({ type: 'source', source });
  }

  /** Whether what is measured is being kept. */
  recordState(record: RecordState): void {
    this.#record = record;
    this.#tellAll({ type: 'record', record });
  }

  /** Latest state of each source. */
  sources(): SourceState[] {
    return [...this.#sources.values()];
  }

  forgetSource(id: string): void {
    this.#sources.delete(id);
  }

  close(): void {
    clearInterval(this.#ticking);
    for (const socket of this.#sockets) socket.terminate();
  }

  #greeting(): ServerMessage {
    return {
      type: 'hello',
      streamVersion: STREAM_VERSION,
      softwareVersion: this.#options.softwareVersion,
      platform: this.#options.platform,
      recordings: this.#options.recordings(),
      sources: this.sources(),
    };
  }

  #tellAll(message: ServerMessage): void {
    for (const subscriber of this.#subscribers) subscriber.tell(message);
  }
}

function parseClientMessage(text: string): ReturnType<typeof clientMessageSchema.parse> | null {
  try {
    return clientMessageSchema.parse(JSON.parse(text));
  } catch {
    return null;
  }
}
