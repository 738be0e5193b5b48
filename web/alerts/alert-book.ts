/** The alerts of a recording: announced, called out, seen, and remembered by this browser. */
import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { isSimulated, type Recording } from '../../protocol/recording.ts';
import { onRememberedElsewhere, recall, remember } from '../store/remembered.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import type { AlertFact } from '../words/alert-fact.ts';
import { type AlertWords, sayAlert } from '../words/say-alert.ts';
import { isOwn, keyOf, seenUntilS } from './alert-identity.ts';
import {
  type AlertLog,
  alertLogSchema,
  announced,
  type LoggedAlert,
  openOf,
  withOneSeen,
  withOver,
  withSeen,
  withUnheard,
} from './alert-log.ts';
import type { About } from './alert-situation.ts';
import { callBack, callOut, ring } from './call-out.ts';
import { soundState } from './chime.ts';
import { addUntold } from './untold-seen.ts';

/** A recording by what it keeps for good: another record may use the same number again. */
export function bookKey({ id, startedAtMs }: Recording): string {
  return `${startedAtMs}.${id}`;
}

export class AlertBook {
  readonly log = signal<AlertLog>([]);
  /** False for a recording that was over before the page came to it: what happened in it is no news. */
  readonly isNews = signal(false);
  /** What stands to be seen, the latest last. */
  readonly open = computed(() => (this.isNews.value ? openOf(this.log.value) : []));
  /** What the alerts are drawn from: null while nobody here follows the recording. */
  readonly session: ReadonlySignal<Session | null>;
  readonly key: string;
  readonly #of: Recording;
  readonly #tellUntold: () => void;
  readonly #endListening: () => void;

  constructor(of: Recording, session: ReadonlySignal<Session | null>, tellUntold: () => void) {
    this.#of = of;
    this.key = bookKey(of);
    this.session = session;
    this.#tellUntold = tellUntold;
    this.log.value = this.#remembered();
    this.#endListening = onRememberedElsewhere((key) => {
      if (key !== this.#logKey) return;
      const before = this.log.peek();
      this.#take(this.#remembered());
      this.#callForOthers(before);
    });
  }

  /** What says an alert outside of the page goes; the list stays remembered. */
  end(): void {
    this.#endListening();
    for (const one of this.open.peek()) callBack(this.#notificationOf(one));
  }

  words(fact: AlertFact): AlertWords {
    return sayAlert(fact, isSimulated(this.#of), speech.value);
  }

  /**
   * @param early older than the page itself: it stands there, and nobody is called
   */
  announce(facts: readonly AlertFact[], channel: number, early: boolean): void {
    if (facts.length === 0) return;
    const atMs = Date.now();
    const seen = this.session.peek()?.followed.peek()?.seenAlerts.peek() ?? [];
    let last = 0;
    this.#change((log) => {
      last = log.at(-1)?.number ?? 0;
      return facts.reduce((so, fact) => announced(so, { fact, channel, atMs, early }, seen), log);
    });
    const called = early ? [] : openOf(this.log.peek()).filter(({ number }) => number > last);
    if (called.length === 0) return;
    const calls = called.map((one) => ({
      key: this.#notificationOf(one),
      words: this.words(one.fact),
    }));
    void callOut(calls).then((heard) => {
      if (heard) return;
      const numbers = called.map(({ number }) => number);
      this.#change((log) => withUnheard(log, numbers, true));
    });
  }

  /** Another window called and was not heard: whichever can be heard rings in its place. */
  #callForOthers(before: AlertLog): void {
    if (soundState.peek() !== 'ready') return;
    const known = new Set(before.filter(({ unheard }) => unheard).map(({ number }) => number));
    const numbers = openOf(this.log.peek())
      .filter(({ unheard, number }) => unheard && !known.has(number))
      .map(({ number }) => number);
    if (numbers.length === 0) return;
    void ring().then((heard) => {
      if (heard) this.#change((log) => withUnheard(log, numbers, false));
    });
  }

  noLonger(channel: number, over: readonly About[]): void {
    if (over.length > 0) this.#change((log) => withOver(log, channel, over));
  }

  /** What was seen on any page. */
  takeSeen(): void {
    const seen = this.session.value?.followed.value?.seenAlerts.value ?? [];
    this.#change((log) => withSeen(log, seen));
  }

  /** Somebody at this page has seen it. */
  see(alert: LoggedAlert): void {
    const { id: recordingId, startedAtMs } = this.#of;
    const atMs = Date.now();
    this.#change((log) => withOneSeen(log, alert.number, atMs));
    if (isOwn(alert.fact)) return;
    const seen = { alert: keyOf(alert.fact, alert.channel), untilS: seenUntilS(alert.fact) };
    addUntold({ recordingId, startedAtMs, seen, atMs });
    this.#tellUntold();
  }

  /** What other windows of this browser have written meanwhile stays. */
  #change(change: (log: AlertLog) => AlertLog): void {
    const known = this.log.peek();
    if (change(known) === known) return;
    const before = this.#remembered();
    const log = change(before);
    if (log !== before) remember(this.#logKey, log);
    this.#take(log);
  }

  #take(log: AlertLog): void {
    const before = this.log.peek();
    this.log.value = log;
    const open = new Set(openOf(log).map(({ number }) => number));
    for (const one of openOf(before))
      if (!open.has(one.number)) callBack(this.#notificationOf(one));
  }

  get #logKey(): string {
    return `alert-log.${this.key}`;
  }

  #remembered(): AlertLog {
    return recall(this.#logKey, alertLogSchema, []);
  }

  /** Told apart from that of another recording, or it would take its place without a sound. */
  #notificationOf({ fact, channel, number }: LoggedAlert): string {
    return `${this.key}/${keyOf(fact, channel)}/${number}`;
  }
}
