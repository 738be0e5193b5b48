/**
 * Of several windows of one browser one calls out, or each alert would ring in all of them at once and each
 * would write its own list over the others'. It is the one whose sound was allowed last, else the first.
 */
import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { soundState } from './chime.ts';

/**
 * @param key of the recording whose alerts are heard; null: of none
 * @returns whether this window calls out what comes of that recording
 */
export function soleCaller(key: ReadonlySignal<string | null>): ReadonlySignal<boolean> {
  const calls = signal(false);
  let role: CallersRole | null = null;
  effect(() => {
    if (key.value === null) return undefined;
    const mine = new CallersRole(`ebbline.calls.${key.value}`, (held) => (calls.value = held));
    role = mine;
    return () => mine.leave();
  });
  effect(() => {
    const canRing = soundState.value === 'ready';
    if (canRing && key.value !== null && !calls.peek()) role?.take();
  });
  return calls;
}

/**
 * A lock that one window has. The browser lets go of it when the window is closed or fails, and freezes no
 * window that holds one.
 */
class CallersRole {
  readonly #name: string;
  readonly #say: (held: boolean) => void;
  #leave: () => void = () => undefined;
  readonly #left: Promise<void>;
  #isOver = false;
  #waiting = new AbortController();

  constructor(name: string, say: (held: boolean) => void) {
    this.#name = name;
    this.#say = say;
    this.#left = new Promise((done) => (this.#leave = done));
    // Missing only on a page that came over a network without encryption: there each window calls.
    if ('locks' in navigator) this.#wait();
    else say(true);
  }

  /** From whichever window has it. */
  take(): void {
    if (!('locks' in navigator)) return;
    this.#waiting.abort();
    this.#ask({ steal: true });
  }

  leave(): void {
    this.#isOver = true;
    this.#say(false);
    this.#waiting.abort();
    this.#leave();
  }

  /** Until whoever has it lets go. */
  #wait(): void {
    this.#waiting = new AbortController();
    this.#ask({ signal: this.#waiting.signal });
  }

  #ask(options: LockOptions): void {
    const { signal: waiting } = options;
    const granted = () => {
      if (this.#isOver) return undefined;
      this.#say(true);
      return this.#left;
    };
    navigator.locks.request(this.#name, options, granted).catch(() => {
      // No longer waited for by this request; otherwise another window has taken it.
      if (this.#isOver || waiting?.aborted === true) return;
      this.#say(false);
      this.#wait();
    });
  }
}
