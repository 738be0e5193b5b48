/**
 * A recording as one JSON file: every fact of it, to be kept, read by other programs, and read in again with
 * the same conclusions to the last digit. Its JSON Schema is made of these schemas.
 */
import { z } from 'zod';
import { markSchema } from './mark.ts';
import { partSchema } from './part-of-recording.ts';
import { receivedReadingSchema } from './reading.ts';
import { recordingSchema } from './recording.ts';
import { seenAlertSchema } from './seen-alert.ts';
import { sheetEntrySchema } from './sheet.ts';
import { signOffSchema } from './sign-off.ts';
import { takenBackSchema } from './typed-in.ts';
import { verifiedSchema } from './verified.ts';

export const RECORDING_JSON = 'ebbline-recording';
/** Raised whenever something changes its meaning; more fields alone don't. */
export const RECORDING_JSON_VERSION = 1;

/** What it is in JSON Schema (2020-12), for other programs. */
export function recordingJsonSchemaDocument(): object {
  return {
    title: 'A recording of a vacuum sensor, with every fact of it',
    description:
      'Pressures are absolute, in pascal. elapsedS is data time: seconds since startedAtMs, on the clock of the sensor. ' +
      'The columns of readings are of equal length; readings that are named in takenBack were slips. ' +
      'Where job is set, all facts are of that one job of the recording, and times are still those of the recording.',
    ...z.toJSONSchema(recordingJsonSchema),
  };
}

/** A reading with all that is recorded of it, and its number. */
export const recordedReadingSchema = receivedReadingSchema.extend({ index: z.int().min(1) });
export type RecordedReading = z.infer<typeof recordedReadingSchema>;

const { shape } = recordedReadingSchema;
const columnsSchema = z.strictObject({
  index: z.array(shape.index),
  channel: z.array(shape.channel),
  boot: z.array(shape.boot),
  sequence: z.array(shape.sequence),
  uptimeMs: z.array(shape.uptimeMs),
  arrivedS: z.array(shape.arrivedS),
  elapsedS: z.array(shape.elapsedS),
  pressurePa: z.array(shape.pressurePa),
  temperatureC: z.array(shape.temperatureC),
  condition: z.array(shape.condition),
});
/** The columns, in the order in which they are written. */
export const READING_COLUMN_NAMES = columnsSchema.keyof().options;

/** All but the readings. */
export const recordingJsonHeadSchema = z.strictObject({
  format: z.literal(RECORDING_JSON),
  version: z.literal(RECORDING_JSON_VERSION),
  /** Of the program that wrote the file. */
  softwareVersion: z.string().max(50),
  recording: recordingSchema,
  /** The job of it that all facts in the file are of; null: it is the whole recording. */
  job: partSchema.nullable().default(null),
  marks: z.array(markSchema),
  /** Those that were slips, and count no more. */
  marksTakenBack: z.array(
    markSchema.extend({
      /** When it was taken back: wall-clock milliseconds since 1970 UTC. */
      atMs: z.int(),
    }),
  ),
  sheet: z.array(sheetEntrySchema),
  /** Their readings are among the readings: no conclusion may be drawn from those. */
  takenBack: z.array(takenBackSchema),
  seenAlerts: z.array(seenAlertSchema),
  signOffs: z.array(signOffSchema),
  /**
   * What came of reckoning its chain of hashes anew as the file was written; null where the file is of one job:
   * the chain is over all facts of the recording.
   */
  verified: verifiedSchema.nullable(),
});
export type RecordingJsonHead = z.infer<typeof recordingJsonHeadSchema>;

export const recordingJsonSchema = recordingJsonHeadSchema.extend({
  /** As columns of equal length, in the order in which the record took them: by rising index. */
  readings: columnsSchema,
});

export type ColumnValue = string | number | null;

/**
 * The file in parts, so that a long recording is never whole in memory.
 * @param column the values of a column, in parts; the same readings for each, whatever is recorded meanwhile
 * @throws Error where the columns are of unequal length: the facts changed meanwhile
 */
export function* recordingJsonParts(
  head: Omit<RecordingJsonHead, 'format' | 'version'>,
  column: (name: keyof RecordedReading) => Iterable<readonly ColumnValue[]>,
): Generator<string> {
  const whole = { format: RECORDING_JSON, version: RECORDING_JSON_VERSION, ...head };
  yield `${JSON.stringify(whole, null, 1).slice(0, -2)},\n "readings": {`;
  let length: number | null = null;
  for (const [at, name] of READING_COLUMN_NAMES.entries()) {
    yield `${at === 0 ? '' : ','}\n  "${name}": [`;
    let count = 0;
    for (const values of column(name)) {
      if (values.length === 0) continue;
      yield `${count === 0 ? '' : ','}${values.map((value) => JSON.stringify(value)).join(',')}`;
      count += values.length;
    }
    yield ']';
    length ??= count;
    if (count !== length) throw new Error(`${count} values of ${name}, and ${length} of others`);
  }
  yield '\n }\n}\n';
}
