/**
 * One sensor's time axis: places each reading by the sensor's own clock, not by when it arrived, and
 * tells a repetition from a new reading.
 *
 * A reading says its boot id, its running number and the sensor's uptime. As long as neither boot nor
 * clock begins anew, the uptime alone places it: also one that was fetched later. Where one of them
 * does, the axis is anchored anew at the arrival of the first reading heard.
 */
import type { ReadingFact } from '../../protocol/reading.ts';
import { ClockWatch, type ClockRate } from './clock-rate.ts';
import { NumberSet } from './number-set.ts';
import type { ResumePoint } from './resume-point.ts';
import { unwrapped } from './wrapping.ts';

export interface Stamp extends Pick<ReadingFact, 'boot' | 'sequence'> {
  readonly uptimeMs: number;
  /** The sensor says that it has set its clock anew. */
  readonly timeReset: boolean;
}

export type Placed =
  | { readonly kind: 'placed'; readonly elapsedS: number }
  /** The same reading came before. */
  | { readonly kind: 'duplicate' }
  /** From a time of which nothing is known: when it was can't be said. */
  | { readonly kind: 'unplaceable' };

/** From an uptime on: how fast time passes beside the sensor's clock, and where uptime zero would lie. */
interface Piece {
  readonly fromUptimeMs: number;
  /** Data time, s. */
  readonly zeroS: number;
  readonly rate: number;
}

/** A stretch in which number and uptime go on without a break. */
interface Stretch {
  readonly boot: number;
  /** Its first number: earlier ones of this boot belong to the stretch before, if there is one. */
  fromNumber: number;
  /** In order; the first holds for what came before it, too. */
  readonly pieces: Piece[];
  readonly clock: ClockWatch;
  readonly seen: NumberSet;
  lastNumber: number;
  lastUptimeMs: number;
  /** Uptimes of the latest numbers heard: what comes again with the same is the same reading. */
  readonly latest: Map<number, number>;
}

/** A minute at 10 Hz: no radio repeats what is older. */
const REMEMBERED = 600;
/** By so much a clock may run away before it is put right, and a computer's sleep go unnoticed, s. */
const AHEAD_S = 60;
/** Fetched readings may belong to so many stretches back. */
const STRETCHES = 8;
/**
 * A sensor's clock is believed within this: 0.1 % is far beyond a crystal, and below what any leak rate is
 * known to. One that is surely further off is put right from then on.
 */
const BELIEVED = 1e-3;
/** Surely: by so many deviations; there are few minutes to tell them from. */
const SURE = 5;

export class Timeline {
  /** The latest last. */
  readonly #stretches: Stretch[] = [];

  /** @param resumed where the sensor's readings stood when the bridge ended */
  constructor(resumed: ResumePoint | null = null) {
    if (resumed === null) return;
    const { boot, numbers, lastNumber, lastUptimeMs, lastElapsedS } = resumed;
    const seen = new NumberSet();
    for (const stretch of numbers) seen.addStretch(stretch);
    this.#stretches.push({
      boot,
      fromNumber: numbers[0]?.from ?? lastNumber,
      pieces: [pieceFrom(lastUptimeMs, lastElapsedS, 1)],
      clock: new ClockWatch(),
      seen,
      lastNumber,
      lastUptimeMs,
      latest: new Map([[lastNumber, lastUptimeMs]]),
    });
  }

  /** @param arrivedS when it was heard, as it was measured, on the recording's time axis */
  placeHeard(stamp: Stamp, arrivedS: number): Placed {
    const present = this.#stretches.at(-1);
    if (present === undefined || present.boot !== stamp.boot || stamp.timeReset) {
      return this.#repeats(present, stamp) ? { kind: 'duplicate' } : this.#begin(stamp, arrivedS);
    }
    const number = unwrapped(stamp.sequence, present.lastNumber);
    const uptimeMs = unwrapped(stamp.uptimeMs, present.lastUptimeMs);
    const isLater = number > present.lastNumber;
    if (isLater && uptimeMs < present.lastUptimeMs) return this.#begin(stamp, arrivedS);
    // No reading is measured after it arrives: the sensor has set its clock on and doesn't say so.
    if (elapsedAt(present, uptimeMs) > arrivedS + AHEAD_S) return this.#begin(stamp, arrivedS);
    if (present.seen.has(number)) {
      // With another time, or from long ago: it was restarted and doesn't say so.
      const isRecent = number > present.lastNumber - REMEMBERED;
      const known = present.latest.get(number) ?? (isRecent ? stamp.uptimeMs : null);
      return known === stamp.uptimeMs ? { kind: 'duplicate' } : this.#begin(stamp, arrivedS);
    }
    present.seen.add(number);
    remember(present, number, stamp.uptimeMs);
    if (isLater) {
      present.lastNumber = number;
      present.lastUptimeMs = uptimeMs;
      setRight(present, present.clock.heard(uptimeMs / 1000, arrivedS));
    }
    return placedAt(present, uptimeMs);
  }

  /** How fast time passes beside the sensor's clock, where that had to be put right; else 1. */
  get rate(): number {
    return this.#stretches.at(-1)?.pieces.at(-1)?.rate ?? 1;
  }

  /** A reading that was kept by the sensor and asked for later: its arrival says nothing. */
  placeFetched(stamp: Stamp): Placed {
    const ofBoot = this.#stretches.filter(({ boot }) => boot === stamp.boot);
    const last = ofBoot.at(-1);
    if (last === undefined) return { kind: 'unplaceable' };
    const number = unwrapped(stamp.sequence, last.lastNumber);
    if (ofBoot.some(({ seen }) => seen.has(number))) return { kind: 'duplicate' };
    const own = ofBoot.findLast(({ fromNumber }) => fromNumber <= number) ?? ofBoot[0] ?? last;
    const next = this.#stretches[this.#stretches.indexOf(own) + 1];
    // It was measured after the clock had been set anew, though before the first one heard since then.
    const isAfter =
      number > own.lastNumber && unwrapped(stamp.uptimeMs, own.lastUptimeMs) < own.lastUptimeMs;
    const isOfNext = next?.boot === stamp.boot && (stamp.timeReset || isAfter);
    const stretch = isOfNext ? next : own;
    const uptimeMs = unwrapped(stamp.uptimeMs, stretch.lastUptimeMs);
    // From before the recording: it belongs to none, or to another.
    if (elapsedAt(stretch, uptimeMs) < 0) return { kind: 'unplaceable' };
    stretch.fromNumber = Math.min(stretch.fromNumber, number);
    stretch.seen.add(number);
    return placedAt(stretch, uptimeMs);
  }

  #repeats(present: Stretch | undefined, { boot, sequence, uptimeMs }: Stamp): boolean {
    if (present?.boot !== boot) return false;
    return present.latest.get(unwrapped(sequence, present.lastNumber)) === uptimeMs;
  }

  #begin({ boot, sequence, uptimeMs }: Stamp, arrivedS: number): Placed {
    const stretch: Stretch = {
      boot,
      fromNumber: sequence,
      pieces: [pieceFrom(uptimeMs, arrivedS, 1)],
      clock: new ClockWatch(),
      seen: new NumberSet(),
      lastNumber: sequence,
      lastUptimeMs: uptimeMs,
      latest: new Map(),
    };
    stretch.seen.add(sequence);
    remember(stretch, sequence, uptimeMs);
    this.#stretches.push(stretch);
    if (this.#stretches.length > STRETCHES) this.#stretches.shift();
    return placedAt(stretch, uptimeMs);
  }
}

/** Time never runs before the recording's beginning, whatever a sensor claims. */
function placedAt(stretch: Stretch, uptimeMs: number): Placed {
  return { kind: 'placed', elapsedS: Math.max(0, elapsedAt(stretch, uptimeMs)) };
}

function pieceFrom(fromUptimeMs: number, elapsedS: number, rate: number): Piece {
  return { fromUptimeMs, zeroS: elapsedS - (fromUptimeMs / 1000) * rate, rate };
}

function elapsedAt({ pieces }: Stretch, uptimeMs: number): number {
  const piece = pieces.findLast(({ fromUptimeMs }) => fromUptimeMs <= uptimeMs) ?? pieces[0];
  if (piece === undefined) throw new Error('a stretch begins with a piece');
  return piece.zeroS + (uptimeMs / 1000) * piece.rate;
}

/** From the latest reading on, without a jump. */
function setRight(stretch: Stretch, found: ClockRate | null): void {
  const present = stretch.pieces.at(-1)?.rate ?? 1;
  if (found === null || Math.abs(found.rate - present) - SURE * found.sigma < BELIEVED) return;
  const { lastUptimeMs } = stretch;
  stretch.pieces.push(pieceFrom(lastUptimeMs, elapsedAt(stretch, lastUptimeMs), found.rate));
}

function remember({ latest }: Stretch, number: number, uptimeMs: number): void {
  latest.set(number, uptimeMs);
  if (latest.size <= REMEMBERED) return;
  for (const oldest of latest.keys()) {
    latest.delete(oldest);
    return;
  }
}
