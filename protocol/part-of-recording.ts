/** Which part of a recording a file or a report is of: one job of it, or the whole of it. */
import { z } from 'zod';
import { beginMarkSchema, FIRST_JOB, type Job } from './job.ts';

export const partSchema = z.strictObject({
  /** The mark at which the job begins; 0: it begins with the recording. */
  beginMark: beginMarkSchema,
  /** Data time at which it begins, s. */
  fromS: z.number().min(0),
  /** Data time at which the next one begins; null: it lasts as long as the recording. */
  untilS: z.number().min(0).nullable(),
});

/** @returns null where the job is all that the recording has */
export function partOf({ beginMark, fromS, untilS }: Job): Job | null {
  return beginMark === FIRST_JOB && untilS === null ? null : { beginMark, fromS, untilS };
}
