/** Shapes of the HTTP API. Every answer that is not 2xx has the shape of `apiErrorSchema`. */
import { z } from 'zod';
import { beginMarkSchema } from './job.ts';
import { LANGUAGES } from './languages.ts';
import { markSchema } from './mark.ts';
import { PROBLEM_CODES } from './problems.ts';
import { recordingSchema } from './recording.ts';
import { seenAlertSchema } from './seen-alert.ts';
import { newSensorLabelSchema, sensorLabelSchema } from './sensor-label.ts';
import { signOffSchema } from './sign-off.ts';
import { sheetEntrySchema } from './sheet.ts';
import { takenBackSchema } from './typed-in.ts';
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from './units.ts';

/** GET /api/health: tells a second start that the first one is running. */
export const healthSchema = z.strictObject({
  product: z.literal('ebbline'),
  softwareVersion: z.string(),
  dataFolder: z.string(),
});

/** GET /api/openapi.json: the API as an OpenAPI 3.1 document, as far as its readers must be sure of it. */
export const openApiSchema = z.looseObject({
  openapi: z.string().regex(/^3\.1\.\d+$/u),
  info: z.looseObject({ title: z.string(), version: z.string() }),
  paths: z.record(z.string(), z.record(z.string(), z.unknown())),
  components: z.looseObject({ schemas: z.record(z.string(), z.unknown()) }),
});

export const apiErrorSchema = z.strictObject({
  code: z.enum(PROBLEM_CODES),
  /** What, where and what to do, in one or two sentences. */
  message: z.string(),
  /** What exactly failed and where, as it stands in the message; empty where there is no more to say. */
  detail: z.string(),
});

/** GET /api/recordings */
export const recordingListSchema = z.strictObject({ recordings: z.array(recordingSchema) });

/** GET /api/recordings/:id */
export const recordingDetailSchema = z.strictObject({
  recording: recordingSchema,
  marks: z.array(markSchema),
  sheet: z.array(sheetEntrySchema),
  /** Marks that were slips. */
  marksTakenBack: z.array(markSchema),
  /** The latest of a job holds. */
  signOffs: z.array(signOffSchema),
  takenBack: z.array(takenBackSchema),
  seenAlerts: z.array(seenAlertSchema),
  /** Those that were taken back among them. */
  readingCount: z.int().min(0),
});

export type RecordingDetail = z.infer<typeof recordingDetailSchema>;

const ofJob = z.coerce
  .number()
  .pipe(beginMarkSchema)
  .optional()
  .describe(
    'The mark at which the job begins that is wanted (0: the first); without it the whole recording.',
  );

/**
 * GET /api/recordings/:id/readings.csv?channel=…: the format knows one curve, so where a recording has
 * several sensors one of them is asked for; without it come all readings, one sensor's among another's.
 */
export const csvQuerySchema = z.object({
  channel: z.coerce
    .number()
    .int()
    .min(0)
    .optional()
    .describe('Which of its sensors, from 0 on; without it the readings of all.'),
  variant: z
    .enum(['plain', 'full'])
    .default('plain')
    .describe('plain: what the analyse command reads; full: all that each reading has.'),
  job: ofJob,
});

/** GET /api/recordings/:id/recording.json?job=… */
export const ofJobQuerySchema = z.object({ job: ofJob });

/** GET /api/recordings/:id/report?unit=…&temperature=…&language=…: an HTML page to be printed or saved. */
export const reportQuerySchema = z.object({
  unit: z.enum(PRESSURE_UNITS).default('micron'),
  temperature: z.enum(TEMPERATURE_UNITS).default('°C'),
  language: z.enum(LANGUAGES).default('en'),
  job: ofJob,
});

/** ISO 216 A4, and the paper of North America. */
export const PAPERS = ['A4', 'Letter'] as const;
export type Paper = (typeof PAPERS)[number];

/** GET /api/recordings/:id/report.pdf?…&paper=…: the same as a PDF, with the readings as files in it. */
export const printQuerySchema = reportQuerySchema.extend({ paper: z.enum(PAPERS).default('A4') });
export type PrintQuery = z.infer<typeof printQuerySchema>;

/**
 * GET /api/sensor-labels: what holds for each sensor now. POST gives one sensor a new label and is
 * answered by it, once it is durable; the recordings that are running then have it too.
 */
export const givenLabelSchema = newSensorLabelSchema.extend(sensorLabelSchema.shape);
export type GivenLabel = z.infer<typeof givenLabelSchema>;
export const sensorLabelListSchema = z.strictObject({ labels: z.array(givenLabelSchema) });

/** What a technician can do to a simulated rig. */
export const REHEARSAL_ACTIONS = [
  'pump_on',
  'pump_off',
  'ballast_open',
  'ballast_close',
  'isolate',
  'reopen',
  'take_cores_out',
  'change_oil',
  'change_battery',
  'tighten_joints',
  'break_with_nitrogen',
  'shut_sections',
  'open_sections',
  'shut_stub',
  'open_stub',
] as const;
export type RehearsalAction = (typeof REHEARSAL_ACTIONS)[number];

/** How fast a rehearsal may run, data seconds per wall-clock second. */
export const REHEARSAL_RATES = [1, 5, 20, 60, 120] as const;

/** GET /api/rehearsals: what can be rehearsed. The cause is not among it. */
export const rehearsalListSchema = z.strictObject({
  rehearsals: z.array(
    z.strictObject({ name: z.string(), place: z.string(), situation: z.string() }),
  ),
});
export type RehearsalCard = z.infer<typeof rehearsalListSchema>['rehearsals'][number];

/** POST /api/rehearsals, answered by the recording. */
export const startRehearsalSchema = z.strictObject({
  name: z.string().min(1).max(100),
  rate: z.union(REHEARSAL_RATES.map((rate) => z.literal(rate))).default(1),
  /** True: a helper works pump and valves at the right moments. False: the trainee does. */
  helper: z.boolean().default(true),
  /** The same seed gives the same rehearsal, reading by reading. */
  seed: z.int().min(0).max(0xffff_ffff).default(1),
});
export type StartRehearsal = z.infer<typeof startRehearsalSchema>;

/**
 * POST /api/rehearsals/current: any of these changes. An action that changes nothing is answered by
 * `no_effect`, and nothing else of the request is done then.
 */
export const steerRehearsalSchema = z.strictObject({
  rate: z.union(REHEARSAL_RATES.map((rate) => z.literal(rate))).optional(),
  paused: z.boolean().optional(),
  action: z.enum(REHEARSAL_ACTIONS).optional(),
  /** On to the next event: what the helper does next, or ten minutes on where nobody does anything. */
  jump: z.literal(true).optional(),
  stop: z.literal(true).optional(),
});
export type SteerRehearsal = z.infer<typeof steerRehearsalSchema>;

/** What a trainee can say was the matter. */
export const REHEARSAL_CAUSES = [
  'in_order',
  'moisture',
  'leak',
  'leak_and_moisture',
  'gear_leak',
  'charged_side',
  'refrigerant',
  'pump_or_oil',
  'ballast_open',
  'narrow_way',
  'sensor_place',
  'part_shut_off',
  'battery',
  'radio',
] as const;
export type RehearsalCause = (typeof REHEARSAL_CAUSES)[number];

/**
 * POST /api/rehearsals/call: the trainee says what it is, once, before the reveal; while the
 * rehearsal runs or after its end.
 */
export const newCallSchema = z.strictObject({
  trainee: z.string().trim().min(1).max(60),
  cause: z.enum(REHEARSAL_CAUSES),
  /** How sure they are that this is it. */
  surePercent: z.int().min(1).max(100),
});
export type NewCall = z.infer<typeof newCallSchema>;

/** Answered by the call as recorded, with the data time at which it was made. */
export const callSchema = newCallSchema.extend({ elapsedS: z.number().min(0) });
export type Call = z.infer<typeof callSchema>;

/** POST /api/rehearsals/reveal: without a call the cause stays hidden, unless one asks for it so. */
export const revealWishSchema = z.strictObject({ withoutCall: z.literal(true).optional() });
export type RevealWish = z.infer<typeof revealWishSchema>;

/** Its answer: what was really wrong. Ends the rehearsal; asked again, the answer is the same. */
export const revealSchema = z.strictObject({
  name: z.string(),
  cause: z.enum(REHEARSAL_CAUSES),
  truth: z.string(),
  /** Which part of the curve told, and what to do about it. */
  tells: z.string(),
  /** Data time from which the curve differed from that of the same job in order; null: it never did. */
  toldS: z.number().min(0).nullable(),
  /** The true steady inflow, Pa/s, and the true water at the start, kg. */
  leakPaPerS: z.number().min(0),
  waterKgAtStart: z.number().min(0),
  /** Whether the gas ballast stood open when the job was taken over. */
  ballastOpenAtStart: z.boolean(),
});
export type Reveal = z.infer<typeof revealSchema>;

/** GET /api/rehearsals/results: every call that was followed by a reveal, the latest first. */
export const resultListSchema = z.strictObject({
  results: z.array(
    callSchema.extend({
      recordingId: z.int().min(1),
      scenario: z.string(),
      seed: z.int().min(0),
      /** What it really was. */
      truth: z.enum(REHEARSAL_CAUSES),
      toldS: z.number().min(0).nullable(),
      /** Wall-clock milliseconds since 1970 UTC. */
      revealedAtMs: z.int(),
    }),
  ),
});
export type RehearsalResult = z.infer<typeof resultListSchema>['results'][number];

/** What is kept of a reveal, called or not. */
export type KeptReveal = Pick<
  RehearsalResult,
  'scenario' | 'seed' | 'truth' | 'toldS' | 'revealedAtMs'
>;

/** POST /api/imports takes a file up to this size. */
export const MOST_IMPORT_BYTES = 128 * 2 ** 20;

/**
 * POST /api/imports?name=…, the file as its body; answered by the recording once all of it is kept.
 * The same file again makes another recording: the record compares no files.
 */
export const importQuerySchema = z.strictObject({
  /** What the file is called, for the recording's title. */
  name: z.string().max(1000).default(''),
  /** How it was read and what was left out of it, kept as a note at its first reading. */
  remark: z.string().max(500).default(''),
});
