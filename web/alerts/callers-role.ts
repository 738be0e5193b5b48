/**
 * A role that one window of a browser has at a time, by a lock. The browser lets go of it when the window is
 * closed or fails, and freezes no window that holds one.
 */
export class CallersRole {
  readonly #name: string;
  readonly #say: (held: boolean) => void;
  /** Lets go of what is held, and of what is waited for. */
  #letGo: () => void = () => undefined;
  #isOver = false;

  constructor(name: string, say: (held: boolean) => void) {
    this.#name = name;
    this.#say = say;
    window.addEventListener('pagehide', this.#hidden);
    window.addEventListener('pageshow', this.#shown);
    this.#ask(false);
  }

  /** From whichever window has it. */
  take(): void {
    if (this.#isOver) return;
    this.#letGo();
    this.#ask(true);
  }

  leave(): void {
    this.#isOver = true;
    window.removeEventListener('pagehide', this.#hidden);
    window.removeEventListener('pageshow', this.#shown);
    this.#say(false);
    this.#letGo();
  }

  /** Kept by the browser to come back to, a page may lose its locks unheard. */
  readonly #hidden = ({ persisted }: PageTransitionEvent) => {
    if (!persisted) return;
    this.#say(false);
    this.#letGo();
  };

  readonly #shown = ({ persisted }: PageTransitionEvent) => {
    if (persisted) this.#ask(false);
  };

  #ask(steal: boolean): void {
    // Missing on a page that came over a network without encryption: there each window calls for itself.
    if (!('locks' in navigator)) {
      this.#say(true);
      return;
    }
    const waiting = new AbortController();
    let isLeft = false;
    const left = new Promise<void>((done) => {
      this.#letGo = () => {
        isLeft = true;
        waiting.abort();
        done();
      };
    });
    const granted = () => {
      if (isLeft) return undefined;
      this.#say(true);
      return left;
    };
    const options = steal ? { steal } : { signal: waiting.signal };
    navigator.locks.request(this.#name, options, granted).catch((error: unknown) => {
      if (isLeft) return;
      // Stolen by another window: this one calls again when that one is closed.
      if (error instanceof DOMException && error.name === 'AbortError') {
        this.#say(false);
        this.#ask(false);
        return;
      }
      // A browser that refuses locks, as one that keeps nothing of a page may do: better twice than never.
      this.#say(true);
    });
  }
}
