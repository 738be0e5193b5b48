/**
 * Facts that are not on the disk yet. Where the disk refuses for hours they stay, in as little memory as they need;
 * beyond a bound new readings are refused: a sensor that keeps its readings still has the newest, and gives them
 * again after the next start, while the oldest may be nowhere else.
 */
import { countOf, joined } from './packed-readings.ts';
import type { ToWriter } from './writer-messages.ts';

export type Waiting = Extract<ToWriter, { type: 'write' }>;

/** Readings that may wait: 72 bytes each, 290 MB; fourteen hours of eight sensors at 10 Hz. A setting of ours. */
const MOST_WAITING = 4_000_000;
/** Readings of one fact: the stream tells no more at once. */
const MOST_TOGETHER = 2000;
/** Readings of one commit: where there is room for a part only, that part is written. */
const MOST_IN_A_COMMIT = 20_000;

export class WaitingFacts {
  readonly #most: number;
  #facts: Waiting[] = [];
  #readings = 0;
  #refused = 0;

  constructor(mostReadings = MOST_WAITING) {
    this.#most = mostReadings;
  }

  get readings(): number {
    return this.#readings;
  }

  /** Readings that were not taken since nothing waited last. */
  get refused(): number {
    return this.#refused;
  }

  get isEmpty(): boolean {
    return this.#facts.length === 0;
  }

  add(one: Waiting): void {
    if (one.fact.kind !== 'readings') {
      this.#facts.push(one);
      return;
    }
    const count = countOf(one.fact.packed);
    if (this.#readings + count > this.#most) {
      this.#refused += count;
      return;
    }
    this.#readings += count;
    this.#facts.push(one);
  }

  /** Readings that follow one another become one fact: nobody waits for the answer to each. */
  gather(): void {
    const gathered: Waiting[] = [];
    let run: Waiting[] = [];
    const closeRun = (): void => {
      if (run.length > 0) gathered.push(together(run));
      run = [];
    };
    let inRun = 0;
    for (const one of this.#facts) {
      const count = readingsOf(one);
      const fits = count > 0 && isOfOneRecording(run[0] ?? one, one);
      if (!fits || inRun + count > MOST_TOGETHER) {
        closeRun();
        inRun = 0;
      }
      if (count === 0) gathered.push(one);
      else run.push(one);
      inRun += count;
    }
    closeRun();
    this.#facts = gathered;
  }

  /** What the next commit is to write; it stays until it is said to be written. */
  first(): Waiting[] {
    let readings = 0;
    const end = this.#facts.findIndex((one) => (readings += readingsOf(one)) > MOST_IN_A_COMMIT);
    return this.#facts.slice(0, end === -1 ? undefined : Math.max(1, end));
  }

  /** @returns how many readings were among so many facts */
  written(count: number): number {
    const written = this.#facts.splice(0, count);
    const readings = written.reduce((sum, one) => sum + readingsOf(one), 0);
    this.#readings -= readings;
    if (this.isEmpty) this.#refused = 0;
    return readings;
  }
}

function readingsOf({ fact }: Waiting): number {
  return fact.kind === 'readings' ? countOf(fact.packed) : 0;
}

function isOfOneRecording({ fact: a }: Waiting, { fact: b }: Waiting): boolean {
  return a.kind === 'readings' && b.kind === 'readings' && a.recordingId === b.recordingId;
}

function together(run: readonly Waiting[]): Waiting {
  const last = run[run.length - 1];
  if (run.length === 1 && last !== undefined) return last;
  const parts = run.flatMap(({ fact }) => (fact.kind === 'readings' ? [fact.packed] : []));
  if (last?.fact.kind !== 'readings') throw new TypeError('only readings are put together');
  return { ...last, fact: { ...last.fact, packed: joined(parts) } };
}
