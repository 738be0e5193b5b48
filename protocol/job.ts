/**
 * A job: one visit to one system, a stretch of a recording. It begins at a mark of its own, which may be set
 * afterwards, and lasts until the next job begins; the first one begins with the recording.
 */
import { z } from 'zod';
import type { Mark } from './mark.ts';
import { type Sheet, type SheetEntry, sheetFromEntries } from './sheet.ts';

/** In the place of a mark's number: the job that begins with its recording. */
export const FIRST_JOB = 0;

/** Which job of a recording: the number of the mark at which it begins. */
export const beginMarkSchema = z.int().min(FIRST_JOB);

export interface Job {
  readonly beginMark: number;
  /** Data time at which it begins, s. */
  readonly fromS: number;
  /** Data time at which the next one begins; null: it lasts as long as the recording. */
  readonly untilS: number | null;
}

/** A recording as long as nobody says that a job begins in it. */
export const WHOLE_JOB: Job = { beginMark: FIRST_JOB, fromS: 0, untilS: null };

/** All jobs of a recording, in the order of data time: there is always one. */
export function jobsIn(marks: readonly Mark[]): Job[] {
  const begins = marks
    .filter(({ kind }) => kind === 'job_begun')
    .sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const all = [{ id: FIRST_JOB, elapsedS: 0 }, ...begins];
  return all.map(({ id, elapsedS }, at) => ({
    beginMark: id,
    fromS: elapsedS,
    untilS: all[at + 1]?.elapsedS ?? null,
  }));
}

/** @returns null where the recording has no such job */
export function jobOf(marks: readonly Mark[], beginMark: number): Job | null {
  return jobsIn(marks).find((job) => job.beginMark === beginMark) ?? null;
}

export function isWithin({ fromS, untilS }: Job, elapsedS: number): boolean {
  return elapsedS >= fromS && (untilS === null || elapsedS < untilS);
}

/** What a job sheet says of the system itself: the next job is at another one. */
const OF_THE_SYSTEM: readonly (keyof Sheet)[] = [
  'site',
  'equipment',
  'refrigerant',
  'volumeM3',
  'metalTemperatureC',
  'coldestTemperatureC',
  'sensorSees',
  'core',
];

/**
 * The entries that hold for a job: its own, and from jobs before it what was said of gear and rules. What was
 * said of another system does not hold for this one.
 */
export function entriesOf(job: Job, entries: readonly SheetEntry[]): SheetEntry[] {
  return entries.flatMap((entry) => {
    if (isWithin(job, entry.elapsedS)) return [entry];
    if (entry.elapsedS >= job.fromS) return [];
    const kept = Object.entries(entry.fields).filter(
      ([field]) => !OF_THE_SYSTEM.some((own) => own === field),
    );
    return kept.length === 0
      ? []
      : [{ elapsedS: entry.elapsedS, fields: Object.fromEntries(kept) }];
  });
}

/** The sheet of a job, as it stands after all entries. */
export function sheetOfJob(job: Job, entries: readonly SheetEntry[]): Sheet {
  return sheetFromEntries(entriesOf(job, entries));
}
