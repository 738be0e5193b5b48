/**
 * One sensor's time axis: places each reading by the sensor's own clock, not by when it arrived.
 *
 * A reading says its boot id, its running number and the sensor's uptime. Within one boot the uptime
 * alone places it; a new boot is anchored anew at the arrival of its first reading.
 */
import type { ReadingFact } from '../../protocol/reading.ts';

interface Stamp extends Pick<ReadingFact, 'boot' | 'sequence'> {
  readonly uptimeMs: number;
}

/** The uptime is a uint32 of milliseconds: it wraps after 49.7 days. */
const UPTIME_WRAP_MS = 2 ** 32;

/** Running numbers remembered for telling duplicates: a minute at 10 Hz. */
const REMEMBERED = 600;

export class Timeline {
  #boot: number | null = null;
  /** Data time of uptime zero of the present boot, seconds. */
  #bootS = 0;
  #lastUptimeMs = 0;
  #wraps = 0;
  readonly #seen = new Set<number>();

  /**
   * Data time of a reading in seconds, or null where the same reading came before.
   * @param arrivedS when it arrived, on the recording's time axis
   */
  place(stamp: Stamp, arrivedS: number): number | null {
    if (stamp.boot !== this.#boot) this.#anchor(stamp, arrivedS);
    else if (this.#seen.has(stamp.sequence)) return null;
    this.#remember(stamp.sequence);
    // Time never runs before the recording's beginning, whatever a sensor claims.
    return Math.max(0, this.#bootS + this.#unwrap(stamp.uptimeMs) / 1000);
  }

  #anchor(stamp: Stamp, arrivedS: number): void {
    this.#boot = stamp.boot;
    this.#bootS = arrivedS - stamp.uptimeMs / 1000;
    this.#lastUptimeMs = stamp.uptimeMs;
    this.#wraps = 0;
    this.#seen.clear();
  }

  #remember(sequence: number): void {
    this.#seen.add(sequence);
    if (this.#seen.size <= REMEMBERED) return;
    for (const oldest of this.#seen) {
      this.#seen.delete(oldest);
      return;
    }
  }

  /** A step back by more than half the range is a wrap; a smaller one is a reading out of order. */
  #unwrap(uptimeMs: number): number {
    const step = uptimeMs - this.#lastUptimeMs;
    let wraps = this.#wraps;
    if (step < -UPTIME_WRAP_MS / 2) wraps += 1;
    else if (step > UPTIME_WRAP_MS / 2) wraps -= 1;
    if (wraps > this.#wraps || (wraps === this.#wraps && step > 0)) {
      this.#wraps = wraps;
      this.#lastUptimeMs = uptimeMs;
    }
    return uptimeMs + wraps * UPTIME_WRAP_MS;
  }
}
