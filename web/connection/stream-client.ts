/** A socket to the bridge: gives the core its events and does what the core says. */
import { z } from 'zod';
import type { ServerMessage } from '../../protocol/stream.ts';
import { forgetPage } from '../offline/forget-page.ts';
import { recallHere, rememberHere } from '../store/remembered.ts';
import {
  type ConnectionEffect,
  type ConnectionEvent,
  type ConnectionState,
  initialConnection,
  stepConnection,
} from './connection-core.ts';
import { after, every } from './steady-timer.ts';

interface StreamListener {
  state(state: ConnectionState): void;
  message(message: ServerMessage): void;
}

const CLOCK_MS = 1000;
/** For which version of the bridge this window has been loaded anew already. */
const RELOADED_KEY = 'reloaded-for';
const reloadedSchema = z.int().nullable();

export class StreamClient {
  readonly #address: string;
  readonly #listener: StreamListener;
  #state = initialConnection(Date.now());
  #socket: WebSocket | null = null;
  #endClock: (() => void) | null = null;
  #takeBackRetry: (() => void) | null = null;

  constructor(address: string, listener: StreamListener) {
    this.#address = address;
    this.#listener = listener;
  }

  start(): void {
    this.#step({ type: 'start' });
    this.#endClock = every(CLOCK_MS, () => this.#step({ type: 'clock' }));
  }

  /** For good. */
  stop(): void {
    this.#endClock?.();
    this.#takeBackRetry?.();
    this.#drop();
  }

  follow(recordingId: number): void {
    this.#step({ type: 'follow', recordingId });
  }

  #step(event: ConnectionEvent): void {
    const { state, effects } = stepConnection(this.#state, event, Date.now());
    this.#state = state;
    for (const effect of effects) this.#do(effect);
    this.#listener.state(this.#state);
  }

  #do(effect: ConnectionEffect): void {
    switch (effect.type) {
      case 'open':
        return this.#open();
      case 'close':
        return this.#drop();
      case 'retry_in':
        this.#takeBackRetry = after(effect.delayMs, () => this.#step({ type: 'retry' }));
        return;
      case 'send':
        this.#socket?.send(JSON.stringify(effect.message));
        return;
      case 'deliver':
        if (effect.message.type === 'hello') rememberHere(RELOADED_KEY, null);
        return this.#listener.message(effect.message);
      case 'reload':
        return void reloadOnce(effect.streamVersion);
    }
  }

  #open(): void {
    this.#drop();
    const socket = new WebSocket(this.#address);
    this.#socket = socket;
    socket.onmessage = (event: MessageEvent<unknown>) => {
      this.#step({ type: 'message', text: String(event.data) });
    };
    socket.onclose = () => this.#step({ type: 'closed' });
  }

  /** Lets go of a socket without hearing of it again: a half-open one may take minutes to close. */
  #drop(): void {
    if (this.#socket === null) return;
    this.#socket.onmessage = null;
    this.#socket.onclose = null;
    this.#socket.close();
    this.#socket = null;
  }
}

/**
 * Once for a version of the bridge: a page that comes back as it was must not reload for ever. It then says
 * that it is of another one (`say-connection.ts`).
 */
async function reloadOnce(streamVersion: number): Promise<void> {
  if (recallHere(RELOADED_KEY, reloadedSchema, null) === streamVersion) return;
  rememberHere(RELOADED_KEY, streamVersion);
  await forgetPage();
  window.location.reload();
}
