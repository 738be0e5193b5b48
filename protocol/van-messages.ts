/**
 * What a van tells its office by way of a broker, and what the office may ask of it. Facts and readings are told
 * in a way that lets a reader take each of them once; what was concluded from them is told as the latest state.
 */
import { z } from 'zod';
import { beginMarkSchema } from './job.ts';
import { markSchema } from './mark.ts';
import { readingColumnsSchema } from './reading.ts';
import { recordingSchema } from './recording.ts';
import { sheetEntrySchema } from './sheet.ts';
import { signOffSchema } from './sign-off.ts';
import { recordingKeySchema } from './van-topics.ts';
import { VERDICTS } from './verdicts.ts';

/** Readings in a message, at most. */
export const MOST_READINGS = 500;
/** Recordings in an inventory's message, at most. */
export const MOST_IN_INVENTORY = 1000;

const index = z.int().min(0);
const seconds = z.number();

/** `…/state`, retained. The broker says `online: false` where a van went without a word. */
export const vanStateSchema = z.object({
  online: z.boolean(),
  softwareVersion: z.string().max(100),
});
export type VanState = z.infer<typeof vanStateSchema>;

/** `…/recordings/KEY/facts`: all that was said of a recording, whole. The highest version holds. */
export const vanFactsSchema = z.object({
  version: z.int().min(1),
  recording: recordingSchema,
  /** Any of it was played and not measured: it proves nothing of any job. */
  simulated: z.boolean(),
  /** Those that hold; a job begins at each `job_begun`, the first one with the recording. */
  marks: z.array(markSchema),
  /** Without the field `people`, unless the van was told to send names. */
  sheet: z.array(sheetEntrySchema),
  /** Empty, unless the van was told to send names. */
  signOffs: z.array(signOffSchema),
  /** Numbers of readings that were slips: they count no more. */
  takenBack: z.array(z.int().min(1)),
  /** Stretches of data time that were deleted for good: whoever holds their readings deletes them too. */
  deleted: z.array(z.object({ fromS: seconds, untilS: seconds.nullable() })),
});
export type VanFacts = z.infer<typeof vanFactsSchema>;

/** `…/recordings/KEY/readings`: all readings with a number above `after` and up to the last one in it. */
export const vanReadingsSchema = recordingKeySchema.extend({
  /** The last number in the message before; 0 at the beginning. Whoever lacks that one lacks a message. */
  after: index,
  simulated: z.boolean(),
  /** Numbers rise; where some are missing, the record has none. */
  columns: readingColumnsSchema.refine((columns) => columns.index.length > 0, {
    message: 'there must be a reading',
  }),
});
export type VanReadings = z.infer<typeof vanReadingsSchema>;

/** `…/recordings/KEY/deleted`: the whole recording was deleted for good. Whoever holds it deletes it too. */
export const vanDeletedSchema = recordingKeySchema;

/** `…/inventory`: what was sent so far, at each new connection and some times a day. Whoever lacks some of it asks. */
export const vanInventorySchema = z.object({
  recordings: z
    .array(
      recordingKeySchema.extend({
        lastIndex: index,
        factsVersion: index,
        deleted: z.boolean(),
      }),
    )
    .max(MOST_IN_INVENTORY),
});
export type VanInventory = z.infer<typeof vanInventorySchema>;

/** `…/asked`, from the office: send again what comes after this. */
export const vanAskedSchema = recordingKeySchema.extend({
  afterIndex: index,
  factsVersion: index,
});
export type VanAsked = z.infer<typeof vanAskedSchema>;

const estimate = z.object({ estimate: z.number(), low: z.number(), high: z.number() });

const channelOutlookSchema = z.object({
  channel: index,
  /** Data time for which it was drawn. */
  nowS: seconds,
  stage: z.string(),
  stageSinceS: seconds,
  pressurePa: z.number().nullable(),
  targetPa: z.number(),
  targetReachedS: seconds.nullable(),
  forecast: z
    .object({
      outcome: z.enum(['reached', 'reaches', 'levels_off', 'too_early']),
      /** p90S null: without a bound. */
      remaining: z.object({ p10S: seconds, p50S: seconds, p90S: seconds.nullable() }).nullable(),
    })
    .nullable(),
  hold: z
    .object({
      sinceS: seconds,
      heldS: seconds,
      verdict: z.enum(VERDICTS),
      /** Null: not decided yet. */
      keepsRule: z.boolean().nullable(),
      leakPaPerS: estimate,
      moreS: seconds.nullable(),
    })
    .nullable(),
});
export type ChannelOutlook = z.infer<typeof channelOutlookSchema>;

/** `…/recordings/KEY/outlook`, retained: what follows from the facts, for each sensor. Never a fact. */
export const vanOutlookSchema = recordingKeySchema.extend({
  simulated: z.boolean(),
  /** Of the job that it is of: the latest of the recording. */
  beginMark: beginMarkSchema,
  /** When it was drawn: wall-clock milliseconds since 1970 UTC. */
  drawnAtMs: z.int(),
  /** Of the program that drew it. */
  softwareVersion: z.string().max(100),
  channels: z.array(channelOutlookSchema),
});
export type VanOutlook = z.infer<typeof vanOutlookSchema>;

/** What they are in JSON Schema (2020-12), for other programs: each under the last level of its topic. */
export function vanMessagesSchemaDocument(): object {
  const schemas = {
    state: vanStateSchema,
    facts: vanFactsSchema,
    readings: vanReadingsSchema,
    deleted: vanDeletedSchema,
    inventory: vanInventorySchema,
    outlook: vanOutlookSchema,
    asked: vanAskedSchema,
  };
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Messages of a van with vacuum sensors, by the last level of their topic',
    description:
      'Pressures are absolute, in pascal. elapsedS is data time: seconds since startedAtMs, on the clock of the sensor.',
    $defs: Object.fromEntries(
      Object.entries(schemas).map(([kind, schema]) => [
        kind,
        z.toJSONSchema(schema, { io: 'input' }),
      ]),
    ),
  };
}
