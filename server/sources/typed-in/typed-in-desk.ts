/**
 * Brings typed-in numbers into the record. The recording begins with the first, goes on after a
 * restart of the bridge, and ends when the technician says so or, as any visit to a system, after a
 * long silence.
 */
import type { TypedReading } from '../../../protocol/api.ts';
import { ProblemError } from '../../../protocol/problems.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import { Feed } from '../feed.ts';
import type { Ledger, Unfinished } from '../feed.ts';
import { TypedInSource } from './typed-in-source.ts';

interface TypedInDeskOptions {
  readonly ledger: Ledger;
  readonly wallClock: () => number;
  readonly onState: (state: SourceState) => void;
  readonly unfinished: Unfinished | null;
}

export class TypedInDesk {
  readonly #options: TypedInDeskOptions;
  #feed: Feed;
  #source: TypedInSource | null = null;

  constructor(options: TypedInDeskOptions) {
    this.#options = options;
    this.#feed = this.#newFeed(options.unfinished);
  }

  /** @returns the id of the recording that the reading went into */
  type(reading: TypedReading): number {
    this.#source ??= this.#start();
    this.#source.type(reading);
    const { recordingId } = this.#feed;
    if (recordingId === null) throw new Error('a typed-in reading began no recording');
    return recordingId;
  }

  /**
   * Ends the recording and answers its id.
   * @throws ProblemError `nothing_typed_in`
   */
  async end(): Promise<number> {
    await this.stop();
    const recordingId = this.#feed.finish();
    this.#feed = this.#newFeed(null);
    if (recordingId === null) throw new ProblemError('nothing_typed_in');
    return recordingId;
  }

  /** The recording stays open, to be gone on with. */
  async stop(): Promise<void> {
    await this.#source?.stop();
    this.#source = null;
  }

  #start(): TypedInSource {
    const source = new TypedInSource(this.#options.wallClock);
    source.start(this.#feed);
    return source;
  }

  #newFeed(unfinished: Unfinished | null): Feed {
    const { ledger, wallClock, onState } = this.#options;
    return new Feed({
      ledger,
      origin: 'typed_in',
      title: '',
      marksMadeBy: 'hand',
      wallClock,
      onState,
      unfinished,
    });
  }
}
