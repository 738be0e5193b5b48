/**
 * Brings typed-in numbers into the record. The recording begins with the first, goes on after a
 * restart of the bridge, and ends when the technician says so or, as any visit to a system, after a
 * long silence. Nothing that was typed is rewritten: a slip is taken back, and typed anew.
 */
import { ProblemError } from '../../../protocol/problems.ts';
import type { Reading } from '../../../protocol/reading.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import type { TakenBack, TypedCorrection, TypedReading } from '../../../protocol/typed-in.ts';
import { Feed } from '../feed.ts';
import type { Ledger, Unfinished } from '../feed.ts';
import { TypedInSource } from './typed-in-source.ts';

interface TypedInDeskOptions {
  readonly ledger: Ledger;
  readonly wallClock: () => number;
  readonly onState: (state: SourceState) => void;
  readonly unfinished: Unfinished | null;
  /** A reading that is in the record and has not been taken back, by its index. */
  readonly readingAt: (recordingId: number, index: number) => Reading | undefined;
  readonly takeBack: (recordingId: number, takenBack: TakenBack) => void;
}

export class TypedInDesk {
  readonly #options: TypedInDeskOptions;
  #feed: Feed;
  /** Of the recording that was open when the bridge started, until it is gone on with or ended. */
  #unfinishedId: number | null;
  #source: TypedInSource | null = null;

  constructor(options: TypedInDeskOptions) {
    this.#options = options;
    this.#feed = this.#newFeed(options.unfinished);
    this.#unfinishedId = options.unfinished?.recordingId ?? null;
  }

  /**
   * Answers the id of the recording that the reading went into.
   * @throws ProblemError `before_recording`
   */
  type({ agoS, ...reading }: TypedReading): number {
    const source = this.#started();
    const nowMs = source.nowMs();
    const readMs = nowMs - agoS * 1000;
    const nowS = this.#feed.open(nowMs, readMs);
    if (nowS - agoS < -ROUNDING_S) throw new ProblemError('before_recording');
    source.type(reading, readMs);
    return this.#recordingId();
  }

  /**
   * Answers the id of the recording.
   * @throws ProblemError `nothing_typed_in`, or `not_found` for what is no reading of it
   */
  correct({ index, pressurePa }: TypedCorrection): number {
    const { readingAt, takeBack, wallClock } = this.#options;
    const recordingId = this.#feed.recordingId ?? this.#unfinishedId;
    if (recordingId === null) throw new ProblemError('nothing_typed_in');
    const slip = readingAt(recordingId, index);
    if (slip?.index !== index) throw new ProblemError('not_found', `reading ${index}`);
    const { elapsedS, temperatureC } = slip;
    const was = { index, elapsedS, pressurePa: slip.pressurePa };
    takeBack(recordingId, { ...was, insteadPa: pressurePa, atMs: wallClock() });
    if (pressurePa === null) return recordingId;
    const source = this.#started();
    const nowMs = source.nowMs();
    const agoS = this.#feed.open(nowMs, nowMs) - elapsedS;
    source.type({ pressurePa, temperatureC }, nowMs - agoS * 1000);
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
    this.#unfinishedId = null;
    if (recordingId === null) throw new ProblemError('nothing_typed_in');
    return recordingId;
  }

  /** The recording stays open, to be gone on with. */
  async stop(): Promise<void> {
    await this.#source?.stop();
    this.#source = null;
  }

  #recordingId(): number {
    const { recordingId } = this.#feed;
    if (recordingId === null) throw new Error('a typed-in reading began no recording');
    return recordingId;
  }

  #started(): TypedInSource {
    if (this.#source !== null) return this.#source;
    const source = new TypedInSource(this.#options.wallClock);
    source.start(this.#feed);
    this.#source = source;
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

/** Data time is carried in whole milliseconds. */
const ROUNDING_S = 0.002;
