/** A screen's socket: what it asks for is done in its turn, and it is dropped where it is gone or asks for too much. */
import type { WebSocket } from 'ws';
import { clientMessageSchema } from '../../protocol/stream.ts';
import type { ClientMessage } from '../../protocol/stream.ts';
import type { InTurn } from './in-turn.ts';
import { Subscriber } from './subscriber.ts';
import type { RecordView } from './subscriber.ts';
import { writtenMessage } from './written-message.ts';

/** WebSocket close codes (RFC 6455, section 7.4.1; IANA's registry for the last one). */
const POLICY_VIOLATION = 1008;
const INTERNAL_ERROR = 1011;
export const TRY_AGAIN_LATER = 1013;

/** A page that catches up has three requests under way at most; who asks for more does not wait for answers. */
const MOST_ASKED = 32;

/** A screen that sleeps, or is out of reach, leaves a socket that no system call tells from a living one. */
const MOST_PINGS_UNANSWERED = 3;

/** So long the other side has to take leave. */
const LEAVE_MS = 1000;

export class Screen {
  readonly subscriber: Subscriber;
  readonly #socket: WebSocket;
  readonly #inTurn: InTurn;
  readonly #log: (line: string) => void;
  #asked = 0;
  #pingsUnanswered = 0;

  constructor(socket: WebSocket, record: RecordView, inTurn: InTurn, log: (line: string) => void) {
    this.#socket = socket;
    this.#inTurn = inTurn;
    this.#log = log;
    this.subscriber = new Subscriber(record, {
      // As text: it is JSON.
      send: (message) => socket.send(writtenMessage(message), { binary: false }),
      waitingBytes: () => this.waitingBytes,
      drop: () => socket.terminate(),
    });
    socket.on('pong', () => (this.#pingsUnanswered = 0));
    socket.on('message', (data) => {
      this.#pingsUnanswered = 0;
      const message = Buffer.isBuffer(data) ? parseClientMessage(data.toString('utf8')) : null;
      if (message) this.#ask(message);
      else this.#dismiss(POLICY_VIOLATION, 'not a message of this protocol');
    });
  }

  /** Bytes that wait because the other side reads too slowly. */
  get waitingBytes(): number {
    return this.#socket.bufferedAmount;
  }

  /** Asks whether the other side is still there; drops it where it has not answered for some time. */
  ping(): void {
    if (this.#pingsUnanswered >= MOST_PINGS_UNANSWERED) this.#socket.terminate();
    else if (this.#isOpen) this.#socket.ping();
    this.#pingsUnanswered += 1;
  }

  drop(): void {
    this.#socket.terminate();
  }

  get #isOpen(): boolean {
    return this.#socket.readyState === this.#socket.OPEN;
  }

  #ask(message: ClientMessage): void {
    if (this.#asked >= MOST_ASKED) {
      this.#dismiss(POLICY_VIOLATION, 'asked for more without waiting for answers');
      return;
    }
    this.#asked += 1;
    this.#inTurn.add(() => {
      this.#asked -= 1;
      if (this.#isOpen) this.#answer(message);
    });
  }

  /** A record that can't be read in one place must not end the recording of what is measured now. */
  #answer(message: ClientMessage): void {
    try {
      this.subscriber.hear(message);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      this.#log(`Recording ${message.recordingId} could not be read for a page: ${why}`);
      this.#dismiss(INTERNAL_ERROR, 'the recording cannot be read');
    }
  }

  #dismiss(code: number, reason: string): void {
    dismiss(this.#socket, code, reason);
  }
}

/** Says why, and hears nothing more of it: the other side may take leave, or go on sending. */
export function dismiss(socket: WebSocket, code: number, reason: string): void {
  socket.removeAllListeners('message');
  socket.close(code, reason);
  setTimeout(() => socket.terminate(), LEAVE_MS).unref();
}

function parseClientMessage(text: string): ClientMessage | null {
  try {
    return clientMessageSchema.parse(JSON.parse(text));
  } catch {
    return null;
  }
}
