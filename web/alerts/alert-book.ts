/** The alerts of the recording that is heard: announced, called out, seen, and remembered by this browser. */
import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Recording } from '../../protocol/recording.ts';
import { isRunning } from '../store/choose-recording.ts';
import { forgetEarliest, onRememberedElsewhere, recall, remember } from '../store/remembered.ts';
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
} from './alert-log.ts';
import type { About } from './alert-situation.ts';
import { callBack, callOut } from './call-out.ts';
import { addUntold, tellUntold } from './untold-seen.ts';

/** What is remembered of each recording: it would fill the browser's store in the end. */
const REMEMBERED = ['alert-log.', 'alerts.', 'sensors-said.', 'device-said.'];

/** A recording by what it keeps for good: another record may use the same number again. */
export function bookKey({ id, startedAtMs }: Recording): string {
  return `${startedAtMs}.${id}`;
}

export class AlertBook {
  readonly log = signal<AlertLog>([]);
  /** Not heard by anybody, since the browser blocked the sound: by number. */
  readonly unheard = signal<ReadonlySet<number>>(new Set());
  /** False for a recording that was over before the page came to it: what happened in it is no news. */
  readonly #isNews = signal(false);
  /** What stands to be seen, the latest last. */
  readonly open = computed(() => (this.#isNews.value ? openOf(this.log.value) : []));
  readonly heard: ReadonlySignal<Session | null>;
  #of: Recording | null = null;

  /** @param heard of which session the alerts are: the one that is shown, or one that is followed aside */
  constructor(heard: ReadonlySignal<Session | null>) {
    this.heard = heard;
    onRememberedElsewhere((key) => {
      if (this.#of !== null && key === logKey(this.#of)) this.#take(this.#remembered(this.#of));
    });
  }

  /** A verdict on another system must not stand over this one. */
  turnTo(of: Recording): void {
    const isOther = this.#of === null || bookKey(this.#of) !== bookKey(of);
    this.#of = of;
    if (isOther) {
      for (const one of this.open.peek()) callBack(this.#notificationOf(one));
      this.#isNews.value = false;
      this.unheard.value = new Set();
      this.log.value = this.#remembered(of);
      for (const beginning of REMEMBERED) forgetEarliest(beginning);
    }
    if (isRunning(of)) this.#isNews.value = true;
  }

  words(fact: AlertFact): AlertWords {
    return sayAlert(fact, this.#of?.origin === 'rehearsal', speech.value);
  }

  /**
   * @param early older than the page itself: it stands there, and nobody is called
   */
  announce(facts: readonly AlertFact[], channel: number, early: boolean): void {
    if (facts.length === 0) return;
    const atMs = Date.now();
    const seen = this.#seen();
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
      this.unheard.value = new Set([...this.unheard.peek(), ...numbers]);
    });
  }

  noLonger(channel: number, over: readonly About[]): void {
    if (over.length > 0) this.#change((log) => withOver(log, channel, over));
  }

  /** What was seen on any page. */
  takeSeen(): void {
    const seen = this.heard.value?.followed.value?.seenAlerts.value ?? [];
    this.#change((log) => withSeen(log, seen));
  }

  /** Somebody at this page has seen it. */
  see(alert: LoggedAlert): void {
    if (this.#of === null) return;
    const { id: recordingId, startedAtMs } = this.#of;
    this.#change((log) => withOneSeen(log, alert.number, Date.now()));
    if (isOwn(alert.fact)) return;
    const seen = { alert: keyOf(alert.fact, alert.channel), untilS: seenUntilS(alert.fact) };
    addUntold({ recordingId, startedAtMs, seen });
    this.tellWhatIsUntold();
  }

  seeAll(): void {
    for (const alert of this.open.peek()) this.see(alert);
  }

  /** Tried again with each new connection. */
  tellWhatIsUntold(): void {
    const session = this.heard.peek();
    if (session !== null) void tellUntold(session.recordings.peek());
  }

  #seen() {
    return this.heard.peek()?.followed.peek()?.seenAlerts.peek() ?? [];
  }

  /** What other windows of this browser have written meanwhile stays. */
  #change(change: (log: AlertLog) => AlertLog): void {
    const of = this.#of;
    const known = this.log.peek();
    if (of === null || change(known) === known) return;
    const before = this.#remembered(of);
    const log = change(before);
    if (log !== before) remember(logKey(of), log);
    this.#take(log);
  }

  #take(log: AlertLog): void {
    const before = this.log.peek();
    this.log.value = log;
    const open = new Set(openOf(log).map(({ number }) => number));
    for (const one of openOf(before))
      if (!open.has(one.number)) callBack(this.#notificationOf(one));
  }

  #remembered(of: Recording): AlertLog {
    return recall(logKey(of), alertLogSchema, []);
  }

  /** Told apart from that of another recording, or it would take its place without a sound. */
  #notificationOf({ fact, channel, number }: LoggedAlert): string {
    const of = this.#of === null ? '' : bookKey(this.#of);
    return `${of}/${keyOf(fact, channel)}/${number}`;
  }
}

function logKey(of: Recording): string {
  return `alert-log.${bookKey(of)}`;
}
