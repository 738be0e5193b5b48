/**
 * Finds the gaps of one sensor in one pass, without keeping its readings. A reading from the sensor's
 * own store that comes late fills the gap, or splits it.
 */
import {
  type Heard,
  INTERVALS_LOOKED_AT,
  isGapBetween,
  missingBetween,
  usualInterval,
} from './gap.ts';

export interface Gap {
  readonly fromS: number;
  readonly toS: number;
  /** How many readings are missing by the sensor's running number; null where it can't tell. */
  readonly missing: number | null;
  /** The sensor itself started anew in it. */
  readonly restarted: boolean;
}

/** More are counted but neither kept nor filled: the memory stays bounded on the worst of radios. */
const MOST_KEPT = 10_000;

interface Between {
  readonly before: Heard;
  readonly after: Heard;
}

export class GapFinder {
  /** In order of time. */
  readonly #found: Between[] = [];
  readonly #intervalsS: number[] = [];
  #earliest: Heard | null = null;
  #latest: Heard | null = null;
  #notKept = 0;

  insert({ boot, sequence, elapsedS }: Heard): void {
    const heard = { boot, sequence, elapsedS };
    if (this.#earliest === null || this.#latest === null) {
      this.#earliest = heard;
      this.#latest = heard;
    } else if (elapsedS >= this.#latest.elapsedS) {
      this.#append(this.#latest, heard);
      this.#latest = heard;
    } else if (elapsedS < this.#earliest.elapsedS) {
      this.#replace(0, 0, [{ before: heard, after: this.#earliest }]);
      this.#earliest = heard;
    } else {
      this.#fill(heard);
    }
  }

  /** In order of time; what a silence is, the latest intervals tell. */
  gaps(): Gap[] {
    const stillOnes = this.#found.filter((candidate) => this.#isGap(candidate));
    return stillOnes.map(({ before, after }) => ({
      fromS: before.elapsedS,
      toS: after.elapsedS,
      missing: before.boot === after.boot ? missingBetween(before, after) : null,
      restarted: before.boot !== after.boot,
    }));
  }

  /** Gaps beyond those that are kept. */
  get notKept(): number {
    return this.#notKept;
  }

  #append(before: Heard, after: Heard): void {
    if (this.#isGap({ before, after })) {
      if (this.#found.length < MOST_KEPT) this.#found.push({ before, after });
      else this.#notKept += 1;
    }
    this.#intervalsS.push(after.elapsedS - before.elapsedS);
    if (this.#intervalsS.length > INTERVALS_LOOKED_AT) this.#intervalsS.shift();
  }

  #fill(heard: Heard): void {
    const at = this.#found.findIndex(({ after }) => after.elapsedS >= heard.elapsedS);
    const gap = this.#found[at];
    if (gap === undefined || gap.before.elapsedS > heard.elapsedS) return;
    this.#replace(at, 1, [
      { before: gap.before, after: heard },
      { before: heard, after: gap.after },
    ]);
  }

  #replace(at: number, count: number, candidates: readonly Between[]): void {
    this.#found.splice(at, count, ...candidates.filter((candidate) => this.#isGap(candidate)));
  }

  #isGap({ before, after }: Between): boolean {
    // What is none where no silence is usual is none at all: hardly ever are the intervals sorted.
    return (
      isGapBetween(before, after, 0) && isGapBetween(before, after, usualInterval(this.#intervalsS))
    );
  }
}
