/**
 * A recording as one JSON file: every fact of it, to be kept, read by other programs, and read in again with
 * the same conclusions to the last digit. Its JSON Schema is made of these schemas.
 */
import { z } from 'zod';
import { markSchema } from './mark.ts';
import { receivedReadingSchema } from './reading.ts';
import type { ReceivedReading } from './reading.ts';
import { recordingSchema } from './recording.ts';
import { seenAlertSchema } from './seen-alert.ts';
import { sheetEntrySchema } from './sheet.ts';
import { takenBackSchema } from './typed-in.ts';
import { verifiedSchema } from './verified.ts';

export const RECORDING_JSON = 'ebbline-recording';
/** Raised whenever something changes its meaning; more fields alone don't. */
export const RECORDING_JSON_VERSION = 1;

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
type ColumnName = (typeof READING_COLUMN_NAMES)[number];

/** All but the readings. */
export const recordingJsonHeadSchema = z.strictObject({
  format: z.literal(RECORDING_JSON),
  version: z.literal(RECORDING_JSON_VERSION),
  /** Of the program that wrote the file. */
  softwareVersion: z.string().max(50),
  recording: recordingSchema,
  marks: z.array(markSchema),
  sheet: z.array(sheetEntrySchema),
  /** Their readings are among the readings: no conclusion may be drawn from those. */
  takenBack: z.array(takenBackSchema),
  seenAlerts: z.array(seenAlertSchema),
  /** What came of reckoning its chain of hashes anew as the file was written. */
  verified: verifiedSchema,
});
export type RecordingJsonHead = z.infer<typeof recordingJsonHeadSchema>;

export const recordingJsonSchema = recordingJsonHeadSchema.extend({
  /** As columns of equal length, in the order in which the record took them: 1, 2, 3 … */
  readings: columnsSchema,
});

/**
 * The file in parts, so that a long recording is never whole in memory.
 * @param chunks begins anew with each call: every reading, in the order of the record
 */
export function* recordingJsonParts(
  head: Omit<RecordingJsonHead, 'format' | 'version'>,
  chunks: () => Iterable<readonly RecordedReading[]>,
): Generator<string> {
  const whole = { format: RECORDING_JSON, version: RECORDING_JSON_VERSION, ...head };
  // Columns come one after the other, so the readings are gone through once for each: a part of a part of a second.
  yield `${JSON.stringify(whole, null, 1).slice(0, -2)},\n "readings": {`;
  for (const [at, name] of READING_COLUMN_NAMES.entries()) {
    yield `${at === 0 ? '' : ','}\n  "${name}": [`;
    let isFirst = true;
    for (const chunk of chunks()) {
      if (chunk.length === 0) continue;
      const values = chunk.map((reading) => JSON.stringify(reading[name]));
      yield `${isFirst ? '' : ','}${values.join(',')}`;
      isFirst = false;
    }
    yield ']';
  }
  yield '\n }\n}\n';
}

/** What is wrong with a file, where, and what to do. */
export class RecordingJsonError extends Error {
  override readonly name = 'RecordingJsonError';
}

export interface ReadRecordingJson {
  readonly head: RecordingJsonHead;
  readonly count: number;
  readings(): Generator<ReceivedReading>;
}

const looseSchema = recordingJsonHeadSchema.extend({
  readings: z.record(z.string(), z.array(z.unknown())),
});
const kindSchema = z.looseObject({ format: z.unknown(), version: z.unknown() });

/**
 * Reads a whole file: of one that is wrong anywhere nothing is taken.
 * @throws RecordingJsonError
 */
export function readRecordingJson(text: string): ReadRecordingJson {
  const file = parsed(text);
  const kind = kindSchema.safeParse(file);
  if (!kind.success || kind.data.format !== RECORDING_JSON) {
    throw new RecordingJsonError(
      `format: the file is not a recording in this format; it must say "format": "${RECORDING_JSON}"`,
    );
  }
  if (kind.data.version !== RECORDING_JSON_VERSION) {
    throw new RecordingJsonError(
      `version: this program reads version ${RECORDING_JSON_VERSION}, and the file has another; ` +
        'read it in with the program that wrote it, or a newer one',
    );
  }
  const found = looseSchema.safeParse(file);
  if (!found.success) throw new RecordingJsonError(firstFault(found.error, ''));
  const { readings: columns, ...head } = found.data;
  const count = countOf(columns);
  const readings = function* (): Generator<ReceivedReading> {
    for (let row = 0; row < count; row += 1) yield readingAt(columns, row, head);
  };
  readings().forEach(() => undefined);
  refuseContradictions(head, count);
  return { head, count, readings };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/u, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new RecordingJsonError(
      `the file is not JSON, or ends before its end (${why.slice(0, 120)}); export it again`,
    );
  }
}

function countOf(columns: Readonly<Record<string, readonly unknown[]>>): number {
  const names: readonly string[] = READING_COLUMN_NAMES;
  const missing = names.find((name) => !Object.hasOwn(columns, name));
  if (missing !== undefined) {
    throw new RecordingJsonError(`readings.${missing}: this column is missing; export it again`);
  }
  const unknown = Object.keys(columns).find((name) => !names.includes(name));
  if (unknown !== undefined) {
    throw new RecordingJsonError(
      `readings.${short(unknown)}: there is no such column; take it out of the file`,
    );
  }
  const count = columns['index']?.length ?? 0;
  const other = names.find((name) => columns[name]?.length !== count);
  if (other === undefined) return count;
  throw new RecordingJsonError(
    `readings.${other}: it has ${columns[other]?.length ?? 0} values and "index" has ${count}; ` +
      'all columns are of equal length',
  );
}

function readingAt(
  columns: Readonly<Record<string, readonly unknown[]>>,
  row: number,
  { recording }: RecordingJsonHead,
): ReceivedReading {
  const where = `reading ${row + 1}`;
  const value = (name: ColumnName) => columns[name]?.[row];
  const found = recordedReadingSchema.safeParse(
    Object.fromEntries(READING_COLUMN_NAMES.map((name) => [name, value(name)])),
  );
  if (!found.success) throw new RecordingJsonError(firstFault(found.error, `${where}, `));
  const { index, ...reading } = found.data;
  if (index !== row + 1) {
    throw new RecordingJsonError(
      `${where}, index: it is ${index}, but readings are numbered 1, 2, 3 … in the order of the file; ` +
        'leave none out and sort them by index',
    );
  }
  if (reading.channel < recording.sensors.length) return reading;
  throw new RecordingJsonError(
    `${where}, channel: it is ${reading.channel}, and recording.sensors has ${recording.sensors.length}; ` +
      'a channel is a place in that list, from 0 on',
  );
}

function refuseContradictions({ takenBack, marks }: RecordingJsonHead, count: number): void {
  const slips = takenBack.map(({ index }) => index);
  const beyond = slips.findIndex((index) => index > count);
  if (beyond >= 0) {
    throw new RecordingJsonError(
      `takenBack.${beyond}.index: it is ${slips[beyond] ?? 0}, and there are ${count} readings; ` +
        'it must be the number of one of them',
    );
  }
  const twice = slips.findIndex((index, at) => slips.indexOf(index) !== at);
  if (twice >= 0) {
    throw new RecordingJsonError(
      `takenBack.${twice}.index: reading ${slips[twice] ?? 0} is taken back twice; leave one out`,
    );
  }
  const unsorted = marks.findIndex(({ id }, at) => id <= (marks[at - 1]?.id ?? 0));
  if (unsorted < 0) return;
  throw new RecordingJsonError(
    `marks.${unsorted}.id: ids rise from each mark to the next; sort the marks by id`,
  );
}

function firstFault(error: z.ZodError, where: string): string {
  const issue = error.issues[0];
  const place = (issue?.path ?? []).map((part) => short(String(part))).join('.');
  const what = short(issue?.message ?? 'it is not of the expected form');
  return `${where}${place === '' ? 'the file' : place}: ${what}; put it right or export the recording again`;
}

/** What stands in a file may be of any length. */
function short(text: string): string {
  return text.length <= 160 ? text : `${text.slice(0, 160)}…`;
}
