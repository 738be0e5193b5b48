/** One sensor of the followed recording: all its readings, and what is folded from those of the job that is shown. */
import { isWithin, type Job } from '../../protocol/job.ts';
import type { Reading } from '../../protocol/reading.ts';
import { Judging } from '../analysis/judging.ts';
import { ChannelCurve } from './channel-curve.ts';
import { ChannelReadings } from './channel-readings.ts';

export class FollowedChannel {
  readonly #channel: number;
  readonly #typedIn: boolean;
  /** Of the whole recording. */
  #all: ChannelReadings;
  #job: Job;
  #readings: ChannelReadings;
  #curve: ChannelCurve;
  #judging: Judging;

  constructor(channel: number, typedIn: boolean, job: Job) {
    this.#channel = channel;
    this.#typedIn = typedIn;
    this.#job = job;
    this.#all = new ChannelReadings(channel);
    this.#readings = isWhole(job) ? this.#all : new ChannelReadings(channel);
    this.#curve = new ChannelCurve(this.#readings, typedIn);
    this.#judging = new Judging(typedIn);
  }

  /** Those of the job. */
  get readings(): ChannelReadings {
    return this.#readings;
  }

  get curve(): ChannelCurve {
    return this.#curve;
  }

  get judging(): Judging {
    return this.#judging;
  }

  insert(incoming: readonly Reading[]): void {
    this.#fold(this.#all.insert(incoming));
  }

  /** Another job of the same recording is shown. */
  show(job: Job): void {
    this.#job = job;
    this.#foldAnew();
  }

  /** Slips go as if they had never been typed. */
  takeBack(slips: ReadonlySet<number>): void {
    const kept = readingsOf(this.#all).filter(({ index }) => !slips.has(index));
    if (kept.length === this.#all.length) return;
    this.#all = new ChannelReadings(this.#channel);
    this.#all.insert(kept);
    this.#foldAnew();
  }

  #foldAnew(): void {
    const all = this.#all;
    this.#readings = isWhole(this.#job) ? all : new ChannelReadings(this.#channel);
    this.#curve = new ChannelCurve(this.#readings, this.#typedIn);
    this.#judging = new Judging(this.#typedIn);
    this.#fold(readingsOf(all));
  }

  /** @param fresh are among all readings already */
  #fold(fresh: readonly Reading[]): void {
    const job = this.#job;
    const own = isWhole(job)
      ? fresh
      : this.#readings.insert(fresh.filter(({ elapsedS }) => isWithin(job, elapsedS)));
    this.#judging.insert(own);
    this.#curve.insert(own);
  }
}

/** Then there is no need to keep its readings twice. */
function isWhole({ fromS, untilS }: Job): boolean {
  return fromS === 0 && untilS === null;
}

function readingsOf(readings: ChannelReadings): Reading[] {
  return Array.from({ length: readings.length }, (_, row) => readings.reading(row));
}
