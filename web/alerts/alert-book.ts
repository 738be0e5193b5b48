/** The alerts of the recording that is shown: announced, called out, seen, and remembered by this browser. */
import { computed, signal } from '@preact/signals';
import type { NewSeenAlert } from '../../protocol/seen-alert.ts';
import { tellSeen } from '../connection/bridge-api.ts';
import { forgetEarliest, recall, remember } from '../store/remembered.ts';
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

/** A recording by what it keeps for good: another record may use the same number again. */
export interface BookOf {
  readonly recordingId: number;
  readonly key: string;
  readonly rehearsal: boolean;
}

/** What was seen here and the bridge has not taken yet. */
interface Untold {
  readonly recordingId: number;
  readonly seen: NewSeenAlert;
}

/** What is remembered of each recording: it would fill the browser's store in the end. */
const REMEMBERED = ['alert-log.', 'alerts.', 'sensors-said.', 'device-said.'];

export class AlertBook {
  readonly log = signal<AlertLog>([]);
  /** Not heard by anybody, since the browser blocked the sound: by number. */
  readonly unheard = signal<ReadonlySet<number>>(new Set());
  /** False for a recording that was over before the page came to it: what happened in it is no news. */
  readonly #isNews = signal(false);
  /** What stands to be seen, the latest last. */
  readonly open = computed(() => (this.#isNews.value ? openOf(this.log.value) : []));
  readonly #session: Session;
  #of: BookOf | null = null;
  #untold: readonly Untold[] = [];

  constructor(session: Session) {
    this.#session = session;
  }

  /** A verdict on another system must not stand over this one. */
  turnTo(of: BookOf, isRunning: boolean): void {
    if (this.#of?.key !== of.key) {
      this.#of = of;
      for (const one of this.open.peek()) callBack(notificationOf(one));
      this.#isNews.value = false;
      this.unheard.value = new Set();
      this.log.value = recall(logKey(of), alertLogSchema, []);
      for (const beginning of REMEMBERED) forgetEarliest(beginning);
    }
    if (isRunning) this.#isNews.value = true;
  }

  words(fact: AlertFact): AlertWords {
    return sayAlert(fact, this.#of?.rehearsal ?? false, speech.value);
  }

  /**
   * @param early older than the page itself: it stands there, and nobody is called
   */
  announce(facts: readonly AlertFact[], channel: number, early: boolean): void {
    if (facts.length === 0) return;
    const atMs = Date.now();
    const seen = this.#session.followed.peek()?.seenAlerts.peek() ?? [];
    const first = this.log.peek().at(-1)?.number ?? 0;
    let log = this.log.peek();
    for (const fact of facts) log = announced(log, { fact, channel, atMs, early }, seen);
    this.#keep(log);
    const called = early ? [] : openOf(log).filter(({ number }) => number > first);
    if (called.length === 0) return;
    const calls = called.map((one) => ({ key: notificationOf(one), words: this.words(one.fact) }));
    void callOut(calls).then((heard) => {
      if (heard) return;
      const numbers = called.map(({ number }) => number);
      this.unheard.value = new Set([...this.unheard.peek(), ...numbers]);
    });
  }

  noLonger(channel: number, over: readonly About[]): void {
    if (over.length > 0) this.#keep(withOver(this.log.peek(), channel, over));
  }

  /** What was seen on any page. */
  takeSeen(): void {
    const seen = this.#session.followed.peek()?.seenAlerts.value ?? [];
    this.#keep(withSeen(this.log.peek(), seen));
  }

  /** Somebody at this page has seen it. */
  see(alert: LoggedAlert): void {
    const of = this.#of;
    if (of === null) return;
    this.#keep(withOneSeen(this.log.peek(), alert.number, Date.now()));
    if (isOwn(alert.fact)) return;
    const seen = { alert: keyOf(alert.fact, alert.channel), untilS: seenUntilS(alert.fact) };
    this.#untold = [...this.#untold, { recordingId: of.recordingId, seen }];
    void this.tellWhatIsUntold();
  }

  seeAll(): void {
    for (const alert of this.open.peek()) this.see(alert);
  }

  /** Tried again with each new connection. */
  async tellWhatIsUntold(): Promise<void> {
    for (const untold of this.#untold) {
      const answer = await tellSeen(untold.recordingId, untold.seen);
      // What the bridge refuses it would refuse again.
      if (!answer.ok && (answer.code === 'unreachable' || answer.code === 'not_understood')) return;
      this.#untold = this.#untold.filter((one) => one !== untold);
    }
  }

  #keep(log: AlertLog): void {
    const before = this.log.peek();
    if (log === before || this.#of === null) return;
    this.log.value = log;
    remember(logKey(this.#of), log);
    const open = new Set(openOf(log).map(({ number }) => number));
    for (const one of openOf(before)) if (!open.has(one.number)) callBack(notificationOf(one));
  }
}

function logKey({ key }: BookOf): string {
  return `alert-log.${key}`;
}

function notificationOf({ fact, channel, number }: LoggedAlert): string {
  return `${keyOf(fact, channel)}/${number}`;
}
