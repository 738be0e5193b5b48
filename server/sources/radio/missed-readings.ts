/** Which readings of one sensor never came, and which of them are worth asking for. */
import { NumberSet, type Stretch } from '../number-set.ts';
import type { ResumePoint } from '../resume-point.ts';
import { unwrapped } from '../wrapping.ts';

const WRAP = 2 ** 32;
/** In one connection the same stretch is asked for so often; after the next one, again. */
const TRIES = 3;

export class MissedReadings {
  #boot: number | null = null;
  #last = 0;
  /** Numbers that came, and those that won't come any more. */
  #settled = new NumberSet();
  /** How often the stretch that begins with a number was asked for in this connection. */
  readonly #tries = new Map<number, number>();

  /** Goes on where a bridge ended, unless readings have been heard since. */
  resume({ boot, numbers, lastNumber }: ResumePoint): void {
    if (this.#boot !== null) return;
    this.#boot = boot;
    this.#last = lastNumber;
    for (const stretch of numbers) this.#settled.addStretch(stretch);
  }

  /** A reading came, by whichever way. One of another boot is the first of its own. */
  note(boot: number, sequence: number, fetched: boolean): void {
    if (boot !== this.#boot) {
      if (fetched) return;
      const isRestart = this.#boot !== null;
      this.#boot = boot;
      this.#last = sequence;
      this.#settled = new NumberSet();
      this.#tries.clear();
      // It counts from 0: what it has measured since its restart has been missed.
      if (isRestart) this.#settled.add(-1);
    }
    const number = unwrapped(sequence, this.#last);
    this.#settled.add(number);
    this.#last = Math.max(this.#last, number);
  }

  /** How many are missing that may yet come. */
  get count(): number {
    return this.#settled.gaps().reduce((sum, { from, to }) => sum + to - from + 1, 0);
  }

  /** The oldest stretch: a sensor forgets it first. Null where nothing is missing or to be hoped for. */
  next(): Stretch | null {
    for (const missing of this.#settled.gaps()) {
      const gap = beforeWrap(missing);
      const tries = this.#tries.get(gap.from) ?? 0;
      if (tries >= TRIES) continue;
      this.#tries.set(gap.from, tries + 1);
      return gap;
    }
    return null;
  }

  /** The sensor has sent all that it still has of this stretch: the rest stays a gap. */
  settle(stretch: Stretch): void {
    this.#settled.addStretch(stretch);
  }

  /** With a new connection everything is worth asking for again. */
  reconnected(): void {
    this.#tries.clear();
  }
}

/** A request names numbers as the sensor counts them: what lies beyond its wrap is asked for next. */
function beforeWrap({ from, to }: Stretch): Stretch {
  return { from, to: Math.min(to, WRAP * Math.floor(from / WRAP) + WRAP - 1) };
}
