/** The stream: greets every screen and passes on what is durable and what the sources are doing. */
import type { WebSocket } from 'ws';
import type { OfficeState } from '../../protocol/office-state.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { RecordState } from '../../protocol/record-state.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { STREAM_VERSION, TICK_INTERVAL_MS } from '../../protocol/stream.ts';
import type { Platform, RecordMessage, ServerMessage } from '../../protocol/stream.ts';
import { InTurn } from './in-turn.ts';
import { dismiss, Screen, TRY_AGAIN_LATER } from './screen.ts';
import type { RecordView } from './subscriber.ts';

interface StreamOptions {
  readonly record: RecordView;
  readonly softwareVersion: string;
  readonly platform: Platform;
  /** For the greeting: the recordings that can still grow, or the latest one. */
  readonly recordings: () => Recording[];
  /** For whoever looks into it. */
  readonly log: (line: string) => void;
  /** How often each screen is asked whether it is there, ms. */
  readonly pingEveryMs?: number;
}

/** A class and its teacher are thirty; more than this is a fault of some program. */
const MOST_SCREENS = 512;

/** Of all screens together; a setting of ours, far beyond what pages that read leave waiting. */
const MOST_WAITING_BYTES = 128 * 1024 * 1024;

const PING_EVERY_MS = 15_000;

export class Stream {
  readonly #options: StreamOptions;
  readonly #screens = new Set<Screen>();
  readonly #sources = new Map<string, SourceState>();
  readonly #inTurn = new InTurn();
  readonly #ticking: NodeJS.Timeout;
  readonly #pinging: NodeJS.Timeout;
  #record: RecordState = { kind: 'kept' };
  #office: OfficeState = { kind: 'untold' };

  constructor(options: StreamOptions) {
    this.#options = options;
    this.#ticking = setInterval(() => {
      this.#dropFurthestBehind();
      this.#tellAll({ type: 'tick' });
    }, TICK_INTERVAL_MS);
    this.#pinging = setInterval(() => {
      for (const screen of this.#screens) screen.ping();
    }, options.pingEveryMs ?? PING_EVERY_MS);
  }

  /** A screen has connected. */
  attach(socket: WebSocket): void {
    socket.on('error', () => socket.terminate());
    if (this.#screens.size >= MOST_SCREENS) {
      dismiss(socket, TRY_AGAIN_LATER, 'there are too many screens');
      return;
    }
    const { record, log } = this.#options;
    const screen = new Screen(socket, record, this.#inTurn, log);
    socket.on('close', () => this.#screens.delete(screen));
    this.#screens.add(screen);
    screen.subscriber.tell(this.#greeting());
    screen.subscriber.tell({ type: 'record', record: this.#record });
    screen.subscriber.tell({ type: 'office', office: this.#office });
  }

  publish(message: RecordMessage): void {
    for (const { subscriber } of this.#screens) subscriber.publish(message);
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

  /** Whether the office is reached. */
  officeState(office: OfficeState): void {
    this.#office = office;
    this.#tellAll({ type: 'office', office });
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
    clearInterval(this.#pinging);
    for (const screen of this.#screens) screen.drop();
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
    for (const { subscriber } of this.#screens) subscriber.tell(message);
  }

  /** They come back and resume where they were; what waits for many that do not read would fill the memory. */
  #dropFurthestBehind(): void {
    const screens = [...this.#screens].map((screen) => ({ screen, bytes: screen.waitingBytes }));
    let waiting = screens.reduce((sum, { bytes }) => sum + bytes, 0);
    if (waiting <= MOST_WAITING_BYTES) return;
    for (const { screen, bytes } of screens.sort((a, b) => b.bytes - a.bytes)) {
      if (waiting <= MOST_WAITING_BYTES) return;
      screen.drop();
      waiting -= bytes;
    }
  }
}
