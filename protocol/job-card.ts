/** A job as a list shows it: facts that are told at a glance, and what came out of it. */
import { z } from 'zod';
import { beginMarkSchema } from './job.ts';
import { ORIGINS } from './recording.ts';
import { VERDICTS } from './verdicts.ts';

/** Of one sensor. Drawn from its readings: never a fact. */
const jobOutcomeSchema = z.strictObject({
  channel: z.int().min(0),
  /** Of the last hold; null: there was none. */
  verdict: z.enum(VERDICTS).nullable(),
  /** How long that hold was, s. */
  heldS: z.number().min(0).nullable(),
  /** The lowest pressure at which a stage of the job ended, Pa; null: none was known. */
  lowestPa: z.number().nullable(),
});
export type JobOutcome = z.infer<typeof jobOutcomeSchema>;

export const jobCardSchema = z.strictObject({
  recordingId: z.int().min(1),
  beginMark: beginMarkSchema,
  origin: z.enum(ORIGINS),
  /** Any of it was played and not measured. */
  simulated: z.boolean(),
  /** Wall-clock time at which the job begins, milliseconds since 1970 UTC. */
  startedAtMs: z.int(),
  /** Data time of its begin, and of its last reading or its end, s; null: it has no reading. */
  fromS: z.number().min(0),
  lastS: z.number().min(0).nullable(),
  /** Readings can still come. */
  running: z.boolean(),
  title: z.string(),
  site: z.string(),
  equipment: z.string(),
  sensors: z.array(z.string()),
  archived: z.boolean(),
  /** Who signed last; null: nobody. */
  signedBy: z.string().nullable(),
  /** Null: not judged yet, because it is running or because others come first. */
  outcomes: z.array(jobOutcomeSchema).nullable(),
});
export type JobCard = z.infer<typeof jobCardSchema>;

/** Which jobs to list. All of it may be left out. */
export const jobQuerySchema = z.object({
  /** Words that site, equipment, sensors, title, who signed or the day (2026-11-26) have, in any order. */
  search: z.string().max(200).default(''),
  verdict: z.enum([...VERDICTS, 'no_hold']).optional(),
  origin: z.enum(ORIGINS).optional(),
  /** Begun at this time or later, and before that; milliseconds since 1970 UTC. */
  fromMs: z.coerce.number().int().optional(),
  untilMs: z.coerce.number().int().optional(),
  archived: z.enum(['no', 'yes', 'all']).default('no'),
  limit: z.coerce.number().int().min(1).max(500).default(50),
  /** How many of those found to leave out: for the next page. */
  skip: z.coerce.number().int().min(0).default(0),
});
export type JobQuery = z.infer<typeof jobQuerySchema>;

/** GET /api/jobs: the latest first. */
export const jobListSchema = z.strictObject({
  jobs: z.array(jobCardSchema),
  /** How many were found, those that are not on this page among them. */
  found: z.int().min(0),
  /** How many of all have not been judged yet: by verdict they are not found. */
  notJudged: z.int().min(0),
});
export type JobList = z.infer<typeof jobListSchema>;

/** POST /api/recordings/:id/jobs/:beginMark/archive: put away, or taken out again. */
export const archiveWishSchema = z.strictObject({ archived: z.boolean() });

/** POST /api/recordings/:id/jobs/:beginMark/delete: for good, and only out of the archive. */
export const deleteWishSchema = z.strictObject({ forGood: z.literal(true) });

/**
 * GET /api/recordings/:id/jobs/:beginMark/curves: of each sensor, thinned for drawing, to be laid over another
 * job's. Times are data times of the recording, s.
 */
const jobCurveSchema = z.strictObject({
  channel: z.int().min(0),
  /** Where the job's first pull-down began; null: it had none. */
  pullDownS: z.number().nullable(),
  /** Where its last hold began; null: it had none. */
  isolatedS: z.number().nullable(),
  /** What a line may join, piece by piece: as many moments as pressures. */
  pieces: z.array(
    z.strictObject({ elapsedS: z.array(z.number()), pressurePa: z.array(z.number()) }),
  ),
});
export type JobCurve = z.infer<typeof jobCurveSchema>;
export const jobCurvesSchema = z.strictObject({ curves: z.array(jobCurveSchema) });
