/**
 * What follows from the facts of a running recording, drawn by the page's own functions at a slow pace: for whoever
 * looks at many vans at once. Never a fact, and of the latest job alone, as a screen shows it.
 */
import { setImmediate } from 'node:timers/promises';
import { entriesOf, isWithin, type Job, jobsIn } from '../../../protocol/job.ts';
import { type Reading, readingsFromColumns } from '../../../protocol/reading.ts';
import { isTypedIn, type Recording } from '../../../protocol/recording.ts';
import { sheetOfSensor } from '../../../protocol/sheet-of-sensor.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import type { ChannelOutlook } from '../../../protocol/van-messages.ts';
import type { Conclusions, Forecast, Rise } from '../../../web/analysis/conclusions.ts';
import { Judging } from '../../../web/analysis/judging.ts';
import {
  heardTogether,
  sensorSaid,
  slowestVerdict,
} from '../../../web/analysis/verdict/slowest-verdict.ts';
import type { VanRecord } from './van-record.ts';

/** Some milliseconds' work. */
const CHUNK = 2000;

export interface DrawnOutlook {
  readonly beginMark: number;
  readonly channels: ChannelOutlook[];
}

export class Outlook {
  readonly #record: VanRecord;
  readonly #judgings = new Map<number, Judging>();
  #afterIndex = 0;
  /** Which readings count: where that changes, they are folded anew. */
  #counted = '';

  constructor(record: VanRecord) {
    this.#record = record;
  }

  async draw(recording: Recording): Promise<DrawnOutlook> {
    const { id } = recording;
    const marks = this.#record.marks(id);
    const job = latestOf(jobsIn(marks));
    this.#countAnewWhereChanged(id, job);
    await this.#fold(recording, job);
    const entries = entriesOf(job, this.#record.sheet(id));
    const ofJob = marks.filter(({ elapsedS }) => isWithin(job, elapsedS));
    const told = [...this.#judgings].flatMap(([channel, judging]) => {
      const sheet = sheetOfSensor(entries, recording, channel);
      const conclusions = judging.conclude(ofJob, sheet, entries);
      return conclusions === null ? [] : [{ channel, conclusions, sheet }];
    });
    // As on the page, no sensor's pass stands while another one of the same system does not bear it out.
    const together = slowestVerdict(
      told.map(({ channel, conclusions, sheet }) => sensorSaid(channel, conclusions.rise, sheet)),
    );
    const channels = told.map(({ channel, conclusions, sheet }) => {
      const rise = conclusions.rise && heardTogether(conclusions.rise, together);
      return channelOutlook(channel, { ...conclusions, rise }, sheet);
    });
    return { beginMark: job.beginMark, channels };
  }

  #countAnewWhereChanged(recordingId: number, job: Job): void {
    const slips = this.#record.takenBack(recordingId).length;
    const deleted = this.#record.deletedStretches(recordingId).length;
    const counted = `${job.beginMark} ${job.fromS} ${slips} ${deleted}`;
    if (counted === this.#counted) return;
    this.#counted = counted;
    this.#afterIndex = 0;
    this.#judgings.clear();
  }

  async #fold(recording: Recording, job: Job): Promise<void> {
    for (;;) {
      const columns = this.#record.readingsAfter(recording.id, this.#afterIndex, CHUNK);
      const last = columns.index.at(-1);
      if (last === undefined) return;
      this.#afterIndex = last;
      for (const reading of readingsFromColumns(columns)) {
        if (isWithin(job, reading.elapsedS)) this.#insert(reading, isTypedIn(recording));
      }
      await setImmediate();
    }
  }

  #insert(reading: Reading, typedIn: boolean): void {
    const judging = this.#judgings.get(reading.channel) ?? new Judging(typedIn);
    this.#judgings.set(reading.channel, judging);
    judging.insert([reading]);
  }
}

function latestOf(jobs: readonly Job[]): Job {
  const job = jobs.at(-1);
  if (job === undefined) throw new Error('a recording has at least one job');
  return job;
}

function channelOutlook(
  channel: number,
  { nowS, stage, pressurePa, targetReachedS, forecast, rise }: Conclusions,
  { targetPa }: Sheet,
): ChannelOutlook {
  return {
    channel,
    nowS,
    stage: stage.name,
    stageSinceS: stage.sinceS,
    pressurePa,
    targetPa,
    targetReachedS,
    forecast: forecast && forecastOf(forecast),
    hold: rise && holdOf(rise),
  };
}

function forecastOf({ outcome, remaining }: Forecast): ChannelOutlook['forecast'] {
  return { outcome, remaining };
}

function holdOf(rise: Rise): ChannelOutlook['hold'] {
  const { sinceS, heldS, verdict, keepsRule, leakPaPerS, moreS } = rise;
  return { sinceS, heldS, verdict, keepsRule, leakPaPerS, moreS };
}
