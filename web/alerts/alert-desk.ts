/**
 * The alerts of all recordings that run, whichever is looked at, and of those that are over and have one that
 * nobody has seen.
 */
import { computed, effect, type ReadonlySignal, signal, untracked } from '@preact/signals';
import type { Recording } from '../../protocol/recording.ts';
import { every } from '../connection/steady-timer.ts';
import { isRunning } from '../store/choose-recording.ts';
import { forgetEarliest } from '../store/remembered.ts';
import type { Session } from '../store/session.ts';
import { AlertBook, bookKey } from './alert-book.ts';
import { startAlerting } from './alerting.ts';
import { watchDeviceBattery } from './device-battery.ts';
import type { HeardRecording, OpenAlert } from './heard-recording.ts';
import { showWaiting } from './page-title.ts';
import { startRepeating } from './repeating.ts';
import { tellUntold } from './untold-seen.ts';

/** A session that nobody sees, with a connection of its own. */
export interface Aside {
  readonly session: Session;
  readonly end: () => void;
}

const TICK_MS = 1000;
/** What the bridge has not taken is told again this often, ms. A setting of ours. */
const TELL_EVERY_MS = 10_000;
/** What is remembered of each recording: it would fill the browser's store in the end. */
const REMEMBERED = ['alert-log.', 'alerts.', 'sensors-said.', 'device-said.'];

export class AlertDesk {
  readonly #heard = signal<readonly HeardRecording[]>([]);
  /** What stands to be seen, the latest last. */
  readonly open = computed<readonly OpenAlert[]>(() =>
    this.#heard.value
      .flatMap((of) => of.book.open.value.map((alert) => ({ of, alert })))
      .sort((a, b) => a.alert.atMs - b.alert.atMs),
  );
  /** Whether this window calls out anything. */
  readonly calls = computed(() => this.#heard.value.some(({ calls }) => calls.value));
  readonly #shown: Session;
  readonly #beginAside: (recording: Recording) => Aside;
  readonly #tick = signal(0);
  /** Bridge and battery are told of where one looks, else with what runs. */
  readonly #firstId = computed(() => {
    const shown = this.#shown.recording.value;
    if (shown !== null && isRunning(shown)) return shown.id;
    return this.#shown.recordings.value.findLast(isRunning)?.id ?? null;
  });

  /**
   * @param shown what the page shows
   * @param beginAside follows a recording that it does not show
   */
  constructor(shown: Session, beginAside: (recording: Recording) => Aside) {
    this.#shown = shown;
    this.#beginAside = beginAside;
    every(TICK_MS, () => (this.#tick.value = performance.now()));
    every(TELL_EVERY_MS, () => this.tellUntold());
    void watchDeviceBattery();
    effect(() => {
      if (shown.phase.value === 'live') this.tellUntold();
    });
    effect(() => this.#keepHeard());
    const own = document.title;
    effect(() => {
      const latest = this.open.value.at(-1);
      const title = latest?.of.book.words(latest.alert.fact).title ?? null;
      showWaiting(document, own, title);
    });
    startRepeating(this.open);
  }

  /** The book of the recording that is shown, else of the one that runs. */
  readonly first = computed<HeardRecording | null>(() => {
    const shownId = this.#shown.recording.value?.id ?? null;
    const of = (id: number | null) => this.#heard.value.find((one) => one.recordingId === id);
    return of(shownId) ?? of(this.#firstId.value) ?? null;
  });

  /** The recordings that are heard, the one that begun first before the others. */
  get heard(): ReadonlySignal<readonly HeardRecording[]> {
    return this.#heard;
  }

  seeAll(): void {
    for (const { of, alert } of this.open.peek()) of.book.see(alert);
  }

  tellUntold(): void {
    if (this.#shown.phase.peek() === 'live') void tellUntold(this.#shown.recordings.peek());
  }

  /** Whatever runs, whatever is shown, and what has an alert that nobody has seen. */
  #keepHeard(): void {
    const shownId = this.#shown.recording.value?.id;
    const wanted = this.#shown.recordings.value.filter(
      (one) => isRunning(one) || one.id === shownId,
    );
    const heard = this.#heard.peek();
    const kept = heard.filter(
      (one) => wanted.some((recording) => bookKey(recording) === one.book.key) || isOwed(one),
    );
    const fresh = wanted.filter((one) => heard.every(({ book }) => book.key !== bookKey(one)));
    if (fresh.length === 0 && kept.length === heard.length) return;
    for (const one of heard) if (!kept.includes(one)) one.end();
    // What goes on in them is no reason to look again at which are wanted.
    const begun = untracked(() => fresh.map((one) => this.#hear(one)));
    this.#heard.value = [...kept, ...begun];
    if (begun.length > 0) for (const beginning of REMEMBERED) forgetEarliest(beginning);
  }

  #hear(of: Recording): HeardRecording {
    const { id } = of;
    const aside = signal<Aside | null>(null);
    const isShown = computed(() => {
      const followed = this.#shown.followed.value;
      // Who looks back at an earlier job of it still has to hear of the present one.
      return followed?.id === id && !followed.isEarlierJob.value;
    });
    const session = computed(() => (isShown.value ? this.#shown : (aside.value?.session ?? null)));
    const recording = computed(
      () => this.#shown.recordings.value.find((one) => one.id === id) ?? null,
    );
    const book = new AlertBook(of, session, () => this.tellUntold());
    const isWanted = computed(
      () => (recording.value !== null && isRunning(recording.value)) || isOwed({ book, recording }),
    );
    const endAside = effect(() => {
      if (isShown.value || !isWanted.value) return undefined;
      const begun = untracked(() => this.#beginAside(recording.peek() ?? of));
      aside.value = begun;
      return () => {
        aside.value = null;
        begun.end();
      };
    });
    const isFirst = computed(() => this.#firstId.value === id);
    const alerting = startAlerting({ book, recording, tick: this.#tick, isFirst });
    const end = () => {
      alerting.end();
      endAside();
      book.end();
    };
    return { recordingId: id, book, recording, calls: alerting.calls, end };
  }
}

/** It is over, and nobody has seen what was called out last. Of a rehearsal that is over nobody has to. */
function isOwed({ book, recording }: Pick<HeardRecording, 'book' | 'recording'>): boolean {
  return book.open.value.length > 0 && recording.value?.origin !== 'rehearsal';
}
