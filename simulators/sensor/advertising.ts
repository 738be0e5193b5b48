/** The two sides of advertising: being heard over and over, and telling a host whom one has heard. */

export class Advertiser {
  data: Buffer = Buffer.alloc(0);
  scanResponse: Buffer = Buffer.alloc(0);

  readonly #intervalMs: number;
  readonly #beHeard: () => void;
  #timer: NodeJS.Timeout | null = null;

  constructor(intervalMs: number, beHeard: () => void) {
    this.#intervalMs = intervalMs;
    this.#beHeard = beHeard;
  }

  get on(): boolean {
    return this.#timer !== null;
  }

  /** Is heard soon after it is switched on, and then at every interval. */
  switch(on: boolean): void {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#timer = null;
    if (!on) return;
    this.#timer = setInterval(this.#beHeard, this.#intervalMs).unref();
    setImmediate(() => {
      if (this.on) this.#beHeard();
    });
  }
}

export class Search {
  #on = false;
  #repeats = false;
  readonly #told = new Set<object>();

  get on(): boolean {
    return this.#on;
  }

  /** @param repeats whether the host wants to hear of the same advertiser more than once */
  set(on: boolean, repeats: boolean): void {
    this.#on = on;
    this.#repeats = repeats;
    this.#told.clear();
  }

  stop(): void {
    this.#on = false;
  }

  /** Whether the host is told that this one was heard just now; counts as told then. */
  tellsOf(advertiser: object): boolean {
    if (!this.#on || (!this.#repeats && this.#told.has(advertiser))) return false;
    this.#told.add(advertiser);
    return true;
  }
}
