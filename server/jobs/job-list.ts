/**
 * All jobs of the record as cards, kept up to date as facts come. What a card says of an outcome is drawn from the
 * readings once the job is over, one job after another and never at the cost of what arrives.
 */
import { setTimeout } from 'node:timers/promises';
import { FIRST_JOB, isWithin, type Job, jobsIn } from '../../protocol/job.ts';
import type { JobCard, JobCurve, JobList, JobOutcome, JobQuery } from '../../protocol/job-card.ts';
import type { Mark } from '../../protocol/mark.ts';
import type { Reading } from '../../protocol/reading.ts';
import { isTypedIn, type Recording } from '../../protocol/recording.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import { ReportReadings } from '../../web/report/report-readings.ts';
import { cardOf, isRunning, type JobFacts } from './card-of.ts';
import { findJobs, type Searchable, searchable } from './find-jobs.ts';
import { jobCurves, jobOutcomes } from './job-outcome.ts';
import type { CardFile } from './kept-cards.ts';

/** From a data time until before another, s; null: without an end. */
type Stretch = Pick<Job, 'fromS' | 'untilS'>;

/** What the list needs of the record. */
export interface JobRecord {
  recordingIds(): number[];
  recording(recordingId: number): Recording | null;
  marks(recordingId: number): Mark[];
  sheet(recordingId: number): SheetEntry[];
  signOffs(recordingId: number): SignOff[];
  /** Numbers of the marks at which its archived jobs begin. */
  archivedJobs(recordingId: number): number[];
  lastElapsedS(recordingId: number): number | null;
  /** Stretches of data time that were deleted for good. */
  deletedStretches(recordingId: number): readonly Stretch[];
  /** How many links its chain has: whatever becomes a fact adds to it. */
  chainLength(recordingId: number): number;
  readingChunks(recordingId: number): AsyncIterable<readonly Reading[]>;
}

/** Of the time, the part that judging old jobs may take; the rest belongs to what arrives. */
const SHARE_FOR_JUDGING = 0.25;

export class JobListKeeper {
  readonly #record: JobRecord;
  readonly #file: CardFile;
  readonly #cards = new Map<number, readonly Searchable[]>();
  /** Recordings whose outcomes are to be drawn, the latest to be asked for last. */
  readonly #toJudge = new Set<number>();
  /** How often facts of a recording came since the start: an outcome of before is worth nothing. */
  readonly #changes = new Map<number, number>();
  /** How long the chain of a running recording was when its jobs were judged. */
  readonly #judgedAt = new Map<number, number>();
  readonly #log: (line: string) => void;
  #judging: Promise<void> = Promise.resolve();
  #isJudging = false;
  #closed = false;

  /** @param log is told what could not be judged */
  constructor(record: JobRecord, file: CardFile, log: (line: string) => void) {
    this.#log = log;
    this.#record = record;
    this.#file = file;
    const kept = new Map(file.all().map((one) => [one.recordingId, one]));
    for (const recordingId of record.recordingIds()) {
      const known = kept.get(recordingId);
      kept.delete(recordingId);
      if (known !== undefined && known.facts === record.chainLength(recordingId)) {
        this.#cards.set(recordingId, known.cards.map(searchable));
        if (known.cards.some(isToBeJudged)) this.#toJudge.add(recordingId);
      } else this.#renew(recordingId);
    }
    for (const gone of kept.keys()) file.forget(gone);
  }

  /** Running jobs are judged anew for whoever asks, so that the next who asks sees them as they stand. */
  find(query: JobQuery): JobList {
    for (const [recordingId, cards] of this.#cards) {
      if (!cards.some(({ card }) => card.running)) continue;
      if (this.#judgedAt.get(recordingId) !== this.#record.chainLength(recordingId))
        this.#toJudge.add(recordingId);
    }
    this.#judgeOn();
    return findJobs([...this.#cards.values()].flat(), query);
  }

  /** @returns null where there is no such job */
  card(recordingId: number, beginMark: number): JobCard | null {
    const cards = this.#cards.get(recordingId) ?? [];
    return cards.find(({ card }) => card.beginMark === beginMark)?.card ?? null;
  }

  /** Data time of the last reading of a job as it is now, s; null where it has none. */
  lastReadingS(recordingId: number, beginMark: number): number | null {
    const recording = this.#record.recording(recordingId);
    const all = recording === null ? [] : this.#factsOf(recording);
    const facts = all.find(({ job }) => job.beginMark === beginMark);
    return facts === undefined ? null : cardOf(facts, null).lastS;
  }

  /** Facts of a recording came: readings alone change nothing before its end. */
  changed(recordingId: number): void {
    // What comes while the bridge closes is found by its chain at the next start.
    if (this.#closed) return;
    this.#changes.set(recordingId, this.#changesOf(recordingId) + 1);
    this.#renew(recordingId);
    this.#judgeOn();
  }

  /** Draws outcomes that are missing. Resolves once none is. */
  judged(): Promise<void> {
    this.#judgeOn();
    return this.#judging;
  }

  async close(): Promise<void> {
    this.#closed = true;
    await this.#judging;
    this.#file.close();
  }

  #renew(recordingId: number): void {
    const recording = this.#record.recording(recordingId);
    if (recording === null) {
      this.#cards.delete(recordingId);
      this.#toJudge.delete(recordingId);
      this.#file.forget(recordingId);
      return;
    }
    this.#set(
      recordingId,
      this.#factsOf(recording).map((facts) => cardOf(facts, null)),
    );
    if (this.#factsOf(recording).some((facts) => !isRunning(facts))) this.#toJudge.add(recordingId);
  }

  #set(recordingId: number, cards: readonly JobCard[]): void {
    this.#cards.set(recordingId, cards.map(searchable));
    const facts = this.#record.chainLength(recordingId);
    if (!cards.some(({ running }) => running)) this.#file.keep({ recordingId, facts, cards });
  }

  #factsOf(recording: Recording): JobFacts[] {
    const { id } = recording;
    const archived = this.#record.archivedJobs(id);
    const common = {
      recording,
      entries: this.#record.sheet(id),
      signOffs: this.#record.signOffs(id),
      lastS: this.#record.lastElapsedS(id),
    };
    const deleted = this.#record.deletedStretches(id);
    const jobs = jobsIn(this.#record.marks(id)).filter(
      (job) => !deleted.some((stretch) => isAllOf(job, stretch)),
    );
    return jobs.map((job) => ({
      ...common,
      job,
      archived: archived.includes(job.beginMark),
    }));
  }

  #judgeOn(): void {
    if (this.#isJudging || this.#toJudge.size === 0) return;
    this.#isJudging = true;
    this.#judging = this.#judgeAll().finally(() => (this.#isJudging = false));
  }

  async #judgeAll(): Promise<void> {
    for (;;) {
      const recordingId = [...this.#toJudge].at(-1);
      if (recordingId === undefined || this.#closed) return;
      const beganMs = performance.now();
      try {
        await this.#judge(recordingId);
      } catch (error) {
        // The list says of it what it knows; no reading may be lost over that.
        this.#toJudge.delete(recordingId);
        this.#log(`Recording ${recordingId} could not be judged for the list: ${String(error)}`);
      }
      const tookMs = performance.now() - beganMs;
      if (this.#toJudge.size > 0) await setTimeout(tookMs * (1 / SHARE_FOR_JUDGING - 1));
    }
  }

  async #judge(recordingId: number): Promise<void> {
    const before = this.#changesOf(recordingId);
    const recording = this.#record.recording(recordingId);
    const chainLength = this.#record.chainLength(recordingId);
    const all = recording === null ? [] : this.#factsOf(recording);
    const cards: JobCard[] = [];
    for (const facts of all) cards.push(cardOf(facts, await this.#outcomesOf(facts)));
    if (this.#closed || before !== this.#changesOf(recordingId)) return;
    this.#toJudge.delete(recordingId);
    if (recording?.open === true) this.#judgedAt.set(recordingId, chainLength);
    else this.#judgedAt.delete(recordingId);
    this.#set(recordingId, cards);
  }

  #changesOf(recordingId: number): number {
    return this.#changes.get(recordingId) ?? 0;
  }

  /** @returns null where there is no such job */
  async curves(recordingId: number, beginMark: number): Promise<JobCurve[] | null> {
    const recording = this.#record.recording(recordingId);
    const all = recording === null ? [] : this.#factsOf(recording);
    const facts = all.find(({ job }) => job.beginMark === beginMark);
    if (facts === undefined) return null;
    const marks = this.#record.marks(recordingId);
    return jobCurves({ ...facts, marks }, await this.#readingsOf(facts));
  }

  async #outcomesOf(facts: JobFacts): Promise<JobOutcome[]> {
    const marks = this.#record.marks(facts.recording.id);
    return jobOutcomes({ ...facts, marks }, await this.#readingsOf(facts));
  }

  async #readingsOf({ recording, job }: JobFacts): Promise<ReportReadings> {
    const readings = new ReportReadings(isTypedIn(recording));
    for await (const chunk of this.#record.readingChunks(recording.id)) {
      readings.insert(ofJob(job, chunk));
    }
    return readings;
  }
}

function isToBeJudged({ outcomes, running }: JobCard): boolean {
  return outcomes === null && !running;
}

function ofJob(job: Job, readings: readonly Reading[]): readonly Reading[] {
  if (job.beginMark === FIRST_JOB && job.untilS === null) return readings;
  return readings.filter(({ elapsedS }) => isWithin(job, elapsedS));
}

function isAllOf(job: Job, { fromS, untilS }: Stretch): boolean {
  if (job.fromS < fromS) return false;
  return untilS === null || (job.untilS !== null && job.untilS <= untilS);
}
