/** What the page knows: recordings, sources, the connection, and the recording that it follows. */
import { computed, effect, signal } from '@preact/signals';
import { isTypedIn, type Recording } from '../../protocol/recording.ts';
import type { OfficeState } from '../../protocol/office-state.ts';
import type { RecordState } from '../../protocol/record-state.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import type { Platform, ServerMessage } from '../../protocol/stream.ts';
import { type ConnectionState, initialConnection } from '../connection/connection-core.ts';
import { after } from '../connection/steady-timer.ts';
import { FollowedRecording } from './followed-recording.ts';
import { chooseRecording } from './choose-recording.ts';
import { sourceOf } from './source-of.ts';

/** The number on the screen changes this often at most, or nobody could read it. */
const READING_EVERY_MS = 200;
/** Judging costs milliseconds, and nobody decides three times a second. */
const JUDGE_EVERY_MS = 350;

export class Session {
  readonly connection = signal<ConnectionState>(initialConnection(Date.now()));
  /** Alone: the connection itself is another object with every message. */
  readonly phase = computed(() => this.connection.value.phase);
  readonly greeted = signal(false);
  /** What the bridge runs on, once it has said so. */
  readonly platform = signal<Platform>('other');
  readonly recordings = signal<readonly Recording[]>([]);
  readonly sources = signal<readonly SourceState[]>([]);
  /** Whether the bridge keeps what is measured. */
  readonly record = signal<RecordState>({ kind: 'kept' });
  readonly office = signal<OfficeState>({ kind: 'untold' });
  readonly followed = signal<FollowedRecording | null>(null);
  /** Opened by hand: a recording that begins elsewhere does not take the screen away from it. */
  readonly chosenByHand = signal(false);
  /** Of a job that is over nothing more comes, whatever the recording does. */
  readonly recording = computed(() => {
    const followed = this.followed.value;
    const found = this.recordings.value.find((one) => one.id === followed?.id) ?? null;
    return found !== null && followed?.isEarlierJob.value === true
      ? { ...found, open: false }
      : found;
  });
  /** Where the readings come from, in the condition of the sensor that is watched. */
  readonly source = computed(() => {
    const channel = this.followed.value?.channel.value ?? 0;
    return sourceOf(this.recording.value, channel, this.sources.value);
  });
  readonly #askFor: (recordingId: number) => void;
  readonly #endJudging: () => void;

  constructor(askFor: (recordingId: number) => void) {
    this.#askFor = askFor;
    this.#endJudging = effect(() => {
      const followed = this.followed.value;
      if (followed === null) return undefined;
      const refreshing = paced(READING_EVERY_MS, () => followed.refreshReading());
      const judging = paced(JUDGE_EVERY_MS, () => followed.judge());
      const stop = followed.revision.subscribe(() => {
        refreshing.ask();
        judging.ask();
      });
      return () => {
        stop();
        refreshing.end();
        judging.end();
      };
    });
  }

  /** For good: nothing is judged any more. */
  end(): void {
    this.#endJudging();
  }

  /** @param beginMark of which of its jobs; null: the latest, whichever that is */
  open(recordingId: number, byHand: boolean, beginMark: number | null = null): void {
    this.chosenByHand.value = byHand;
    if (this.followed.value?.id === recordingId) return this.followed.value.chooseJob(beginMark);
    const known = this.recordings.value.find((one) => one.id === recordingId);
    const followed = new FollowedRecording(recordingId, known !== undefined && isTypedIn(known));
    followed.chooseJob(beginMark);
    if (known !== undefined) followed.takeRecording(known);
    this.followed.value = followed;
    this.#askFor(recordingId);
  }

  /** Knows of a recording before the stream has told of it: from the list, or just started. */
  learn(recording: Recording): void {
    const others = this.recordings.value.filter((one) => one.id !== recording.id);
    this.recordings.value = [...others, recording].sort((a, b) => a.id - b.id);
    const followed = this.followed.peek();
    if (followed?.id === recording.id) followed.takeRecording(recording);
  }

  hear(message: ServerMessage): void {
    const followed = this.followed.value;
    switch (message.type) {
      case 'hello':
        this.greeted.value = true;
        this.platform.value = message.platform;
        this.sources.value = message.sources;
        for (const recording of message.recordings) this.learn(recording);
        return this.#followTheLatest();
      case 'recording':
        this.learn(message.recording);
        return this.#followTheLatest();
      case 'source':
        this.sources.value = [
          ...this.sources.value.filter((source) => source.id !== message.source.id),
          message.source,
        ];
        return;
      case 'record':
        this.record.value = message.record;
        return;
      case 'office':
        this.office.value = message.office;
        return;
      case 'facts':
        followed?.takeFacts(message.marks, message.sheet);
        followed?.takeBack(message.takenBack);
        followed?.takeSeen(message.seenAlerts);
        return;
      case 'backfill':
        followed?.insert(message.columns, message.complete);
        if (message.complete) this.#judgeAtOnce(followed);
        return;
      case 'readings':
        return followed?.insert(message.columns);
      case 'mark':
        return followed?.takeMark(message.mark);
      case 'job_deleted':
        // Nobody goes on looking at what is gone; the job that is running goes on as it is.
        if (this.recording.value?.open !== true) window.location.reload();
        return;
      case 'mark_taken_back':
        return followed?.takeMarkBack(message.markId);
      case 'sheet':
        return followed?.takeEntry(message.entry);
      case 'taken_back':
        return followed?.takeBack([message.reading]);
      case 'seen_alert':
        return followed?.takeSeen([...followed.seenAlerts.peek(), message.seen]);
      case 'tick':
        return;
    }
  }

  /** Somebody has opened it and waits: what paces a live curve would only keep them waiting. */
  #judgeAtOnce(followed: FollowedRecording | null): void {
    followed?.refreshReading();
    followed?.judge();
  }

  #followTheLatest(): void {
    if (this.chosenByHand.value && this.followed.value !== null) return;
    const best = chooseRecording(this.recordings.value, this.followed.value?.id ?? null);
    if (best !== null && best !== this.followed.value?.id) this.open(best, false);
  }
}

/** At once the first time, then no more often than every so many milliseconds, the last call kept. */
function paced(everyMs: number, run: () => void): { ask: () => void; end: () => void } {
  let takeBack: (() => void) | null = null;
  let lastMs = Number.NEGATIVE_INFINITY;
  const go = () => {
    takeBack = null;
    lastMs = performance.now();
    run();
  };
  return {
    ask: () => {
      takeBack ??= wait(Math.max(0, lastMs + everyMs - performance.now()), go);
    },
    end: () => takeBack?.(),
  };
}

/** Where somebody sees the page its own timer is as good, and no thread has to be asked. */
function wait(delayMs: number, run: () => void): () => void {
  if (document.hidden) return after(delayMs, run);
  const timer = window.setTimeout(run, delayMs);
  return () => window.clearTimeout(timer);
}
