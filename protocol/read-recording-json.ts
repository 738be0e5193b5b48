/** Reads a recording from one JSON file (recording-json.ts): from outside, so nothing of it is believed. */
import { z } from 'zod';
import { FIRST_JOB } from './job.ts';
import {
  READING_COLUMN_NAMES,
  RECORDING_JSON,
  RECORDING_JSON_VERSION,
  type RecordedReading,
  recordedReadingSchema,
  type RecordingJsonHead,
  recordingJsonHeadSchema,
} from './recording-json.ts';

/** What is wrong with a file, where, and what to do. */
export class RecordingJsonError extends Error {
  override readonly name = 'RecordingJsonError';
}

export interface ReadRecordingJson {
  readonly head: RecordingJsonHead;
  readonly count: number;
  /** From the first one, each time that it is called. */
  readonly readings: () => Generator<RecordedReading>;
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
  const readings = () => readingsOf(columns, count, head);
  refuseContradictions(head, readings());
  return { head: asOneJob(head), count, readings };
}

/** A recording of its own has no job before the one that the file is of: where it began is where readings begin. */
function asOneJob(head: RecordingJsonHead): RecordingJsonHead {
  const { job, marks, signOffs } = head;
  if (job === null || job.beginMark === FIRST_JOB) return head;
  return {
    ...head,
    marks: marks.filter(({ id }) => id !== job.beginMark),
    signOffs: signOffs.map((one) =>
      one.beginMark === job.beginMark ? { ...one, beginMark: FIRST_JOB } : one,
    ),
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/u, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new RecordingJsonError(
      `the file is not JSON, or ends before its end (${short(why)}); export it again`,
    );
  }
}

type Columns = Readonly<Record<string, readonly unknown[]>>;

function countOf(columns: Columns): number {
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

function* readingsOf(
  columns: Columns,
  count: number,
  { recording }: RecordingJsonHead,
): Generator<RecordedReading> {
  const sensors = recording.sensors.length;
  let before = 0;
  for (let row = 0; row < count; row += 1) {
    const where = `reading ${row + 1} of the file, `;
    const values = READING_COLUMN_NAMES.map((name) => [name, columns[name]?.[row]]);
    const found = recordedReadingSchema.safeParse(Object.fromEntries(values));
    if (!found.success) throw new RecordingJsonError(firstFault(found.error, where));
    const { index, channel } = found.data;
    if (index <= before) {
      throw new RecordingJsonError(
        `${where}index: it is ${index} after ${before}, but it rises from each reading to the next; ` +
          'sort the readings by index',
      );
    }
    if (channel >= sensors) {
      throw new RecordingJsonError(
        `${where}channel: it is ${channel}, and recording.sensors has ${sensors}; ` +
          'a channel is a place in that list, from 0 on',
      );
    }
    before = index;
    yield found.data;
  }
}

function refuseContradictions(
  { job, takenBack, marks, marksTakenBack, signOffs }: RecordingJsonHead,
  readings: Iterable<RecordedReading>,
): void {
  const slips = new Map(takenBack.map(({ index }, at) => [index, at]));
  for (const { index } of readings) slips.delete(index);
  for (const [index, at] of slips) {
    throw new RecordingJsonError(
      `takenBack.${at}.index: there is no reading ${index}; it must be the number of one of the readings`,
    );
  }
  refuseTwice(
    'takenBack',
    'index',
    takenBack.map(({ index }) => index),
  );
  const ids = [...marks, ...marksTakenBack].map(({ id }) => id);
  refuseTwice('marks and marksTakenBack', 'id', ids);
  if (job !== null && job.beginMark !== FIRST_JOB && !ids.includes(job.beginMark)) {
    throw new RecordingJsonError(
      'job.beginMark: there is no such mark; it must be the id of one of the marks, or 0',
    );
  }
  const lost = signOffs.findIndex(
    ({ beginMark }) => beginMark !== FIRST_JOB && !ids.includes(beginMark),
  );
  if (lost < 0) return;
  throw new RecordingJsonError(
    `signOffs.${lost}.beginMark: there is no such mark; it must be the id of one of the marks, or 0`,
  );
}

function refuseTwice(list: string, field: string, numbers: readonly number[]): void {
  const seen = new Set<number>();
  for (const number of numbers) {
    if (seen.has(number)) {
      throw new RecordingJsonError(`${list}: ${field} ${number} is there twice; leave one out`);
    }
    seen.add(number);
  }
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
