/** Who answers for a job, in their own words; and what the program had concluded when they signed. */
import { z } from 'zod';
import { beginMarkSchema, isWithin, type Job } from './job.ts';

const line = (most: number) => z.string().trim().max(most);

/** POST /api/recordings/:id/sign-offs: answered by the sign-off, once it is durable. A later one holds. */
export const newSignOffSchema = z.strictObject({
  beginMark: beginMarkSchema,
  /** Where the job begins that was looked at, s: refused where that has changed meanwhile. */
  fromS: z.number().min(0),
  name: line(100).min(1),
  /** Of the person or the firm, as local rules ask for it; empty where none is needed. */
  licence: line(100).default(''),
  remark: line(1000).default(''),
  /** What the screen said then, in its language: the verdict and what it rests on. */
  quoted: line(1000).default(''),
});
export type NewSignOff = z.infer<typeof newSignOffSchema>;

export const signOffSchema = newSignOffSchema.extend({
  /** Data time of the job's last reading then, s: what came later was not signed for. */
  lastS: z.number().min(0).nullable(),
  /** Of the program that had drawn the conclusions. */
  softwareVersion: z.string().max(100),
  /** Wall-clock milliseconds since 1970 UTC. */
  atMs: z.int(),
});
export type SignOff = z.infer<typeof signOffSchema>;

/** Whether what was signed for is still part of the job, as it is now. */
export function isOfSameStretch({ fromS, lastS }: SignOff, job: Job): boolean {
  return fromS === job.fromS && (lastS === null || isWithin(job, lastS));
}
