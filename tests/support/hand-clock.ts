/** A clock that stands still until a test moves it. */
import type { RehearsalClock } from '../../server/sources/rehearsal/rehearsal-clock.ts';

export class HandClock implements RehearsalClock {
  #nowMs = 0;
  readonly #wallAtStartMs = 1_700_000_000_000;
  readonly #timers = new Set<{ dueMs: number; readonly intervalMs: number; call: () => void }>();

  /** Timers that still run. */
  get running(): number {
    return this.#timers.size;
  }

  monotonicMs(): number {
    return this.#nowMs;
  }

  wallMs(): number {
    return this.#wallAtStartMs + this.#nowMs;
  }

  every(intervalMs: number, call: () => void): () => void {
    const timer = { dueMs: this.#nowMs + intervalMs, intervalMs, call };
    this.#timers.add(timer);
    return () => {
      this.#timers.delete(timer);
    };
  }

  /** Time passes and the timers run as they fall due. */
  pass(durationMs: number): void {
    const endMs = this.#nowMs + durationMs;
    for (;;) {
      const next = [...this.#timers].sort((a, b) => a.dueMs - b.dueMs)[0];
      if (!next || next.dueMs > endMs) break;
      this.#nowMs = next.dueMs;
      next.dueMs += next.intervalMs;
      next.call();
    }
    this.#nowMs = endMs;
  }

  /** Time passes and nothing runs until its end, as when a computer sleeps; then each timer once. */
  standStill(durationMs: number): void {
    this.#nowMs += durationMs;
    for (const timer of [...this.#timers]) {
      timer.dueMs = this.#nowMs + timer.intervalMs;
      timer.call();
    }
  }
}
