/**
 * A recording as one JSON file: all that the record has of it, and no conclusion. Units are in the names;
 * `elapsedS` is data time, `…AtMs` wall-clock milliseconds since 1970 UTC.
 */
import { z } from 'zod';
import { type Mark, markSchema } from './mark.ts';
import {
  areOfEqualLength,
  readingSchema,
  type ReceivedColumns,
  receivedColumnsSchema,
  uptimeMs,
} from './reading.ts';
import { type Recording, recordingSchema } from './recording.ts';
import { type SeenAlert, seenAlertSchema } from './seen-alert.ts';
import { type SheetEntry, sheetEntrySchema } from './sheet.ts';
import { type TakenBack, takenBackSchema } from './typed-in.ts';
import { type Verified, verifiedSchema } from './verified.ts';

const FORMAT = 'ebbline-recording';
const VERSION = 1;

const { shape } = readingSchema;
const COLUMN_NAMES = receivedColumnsSchema.keyof().options;

export const recordingJsonSchema = z.strictObject({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  /** Of the program that wrote the file. */
  softwareVersion: z.string(),
  recording: recordingSchema,
  marks: z.array(markSchema),
  /** What was entered on the job sheet, in the order in which it came. */
  sheet: z.array(sheetEntrySchema),
  takenBack: z.array(takenBackSchema),
  seenAlerts: z.array(seenAlertSchema),
  verified: verifiedSchema,
  /** Columns of equal length, in the order in which the record took them; without what was taken back. */
  readings: z
    .strictObject({
      index: z.array(shape.index),
      channel: z.array(shape.channel),
      boot: z.array(shape.boot),
      sequence: z.array(shape.sequence),
      elapsedS: z.array(shape.elapsedS),
      pressurePa: z.array(shape.pressurePa),
      temperatureC: z.array(shape.temperatureC),
      condition: z.array(shape.condition),
      uptimeMs: z.array(uptimeMs),
      arrivedS: z.array(z.number()),
    })
    .refine(areOfEqualLength, { message: 'columns must be of equal length' }),
});

export interface RecordingJsonFacts {
  readonly softwareVersion: string;
  readonly recording: Recording;
  readonly marks: readonly Mark[];
  readonly sheet: readonly SheetEntry[];
  readonly takenBack: readonly TakenBack[];
  readonly seenAlerts: readonly SeenAlert[];
  readonly verified: Verified;
}

/**
 * The file in parts. One column comes after the other, so that the readings wait as text meanwhile: about
 * as much memory as the file is long.
 * @param chunks the readings in the order of the record
 */
export async function* recordingJsonParts(
  facts: RecordingJsonFacts,
  chunks: AsyncIterable<ReceivedColumns> | Iterable<ReceivedColumns>,
): AsyncGenerator<string> {
  const waiting = COLUMN_NAMES.map((name) => ({ name, texts: new Array<string>() }));
  for await (const chunk of chunks) {
    if (chunk.index.length === 0) continue;
    for (const { name, texts } of waiting) texts.push(JSON.stringify(chunk[name]).slice(1, -1));
  }
  const { softwareVersion, recording, marks, sheet, takenBack, seenAlerts, verified } = facts;
  const first = { format: FORMAT, version: VERSION, softwareVersion, recording, marks, sheet };
  const head = JSON.stringify({ ...first, takenBack, seenAlerts, verified });
  yield `${head.slice(0, -1)},"readings":{`;
  for (const [place, { name, texts }] of waiting.entries()) {
    yield `${place === 0 ? '' : ','}"${name}":[`;
    for (const [at, text] of texts.entries()) yield at === 0 ? text : `,${text}`;
    yield ']';
  }
  yield '}}\n';
}
