/** Which sensors have failed how often, and when each of them may be tried again. */
import { backoffMs } from './backoff.ts';
import type { SessionEnd } from './session-end.ts';
import type { RadioTiming } from './timing.ts';

type Waits = Pick<RadioTiming, 'retryMs' | 'longestRetryMs' | 'longestRefusalMs'>;

interface Trouble {
  /** In a row. */
  readonly failures: number;
  readonly retryAtMs: number;
}

/** A setting of ours: more sensors than any air holds. */
const MOST_REMEMBERED = 256;

export class RetryBook {
  readonly #waits: Waits;
  readonly #chance: () => number;
  readonly #troubles = new Map<string, Trouble>();

  /** @param chance evenly distributed in [0, 1); see `backoff.ts` */
  constructor(waits: Waits, chance: () => number) {
    this.#waits = waits;
    this.#chance = chance;
  }

  /** @param nowMs on the same clock in every call */
  mayTry(id: string, nowMs: number): boolean {
    return nowMs >= (this.#troubles.get(id)?.retryAtMs ?? 0);
  }

  note(id: string, { reason, delivered }: SessionEnd, nowMs: number): void {
    const { retryMs, longestRetryMs, longestRefusalMs } = this.#waits;
    const failures = delivered ? 1 : (this.#troubles.get(id)?.failures ?? 0) + 1;
    const saysNo = reason === 'refused' || reason === 'not_understood';
    const waits = { firstMs: retryMs, longestMs: saysNo ? longestRefusalMs : longestRetryMs };
    // The latest last: the oldest of too many is forgotten.
    this.#troubles.delete(id);
    const [oldest] = this.#troubles.keys();
    if (oldest !== undefined && this.#troubles.size >= MOST_REMEMBERED) {
      this.#troubles.delete(oldest);
    }
    this.#troubles.set(id, {
      failures,
      retryAtMs: nowMs + backoffMs(waits, failures, this.#chance()),
    });
  }
}
