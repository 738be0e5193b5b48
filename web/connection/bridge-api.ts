/** Requests to the bridge. Every answer is parsed; what goes wrong comes back by its code. */
import type { z } from 'zod';
import {
  apiErrorSchema,
  type Call,
  callSchema,
  type GivenLabel,
  givenLabelSchema,
  MOST_IMPORT_BYTES,
  type NewCall,
  type Paper,
  type RecordingDetail,
  recordingDetailSchema,
  type RehearsalCard,
  rehearsalListSchema,
  type RehearsalResult,
  resultListSchema,
  type Reveal,
  revealSchema,
  type RevealWish,
  sensorLabelListSchema,
  type StartRehearsal,
  type SteerRehearsal,
} from '../../protocol/api.ts';
import {
  type JobCard,
  jobCardSchema,
  type JobCurve,
  jobCurvesSchema,
  type JobList,
  jobListSchema,
  type JobQuery,
} from '../../protocol/job-card.ts';
import { type Mark, markSchema, type NewMark } from '../../protocol/mark.ts';
import {
  type NewPreparedSheet,
  type PreparedSheet,
  preparedSheetListSchema,
  preparedSheetSchema,
  type UsePreparedSheet,
} from '../../protocol/prepared-sheet.ts';
import { type Recording, recordingSchema } from '../../protocol/recording.ts';
import { RECORD_MEDIA_TYPE, type Restored, restoredSchema } from '../../protocol/restored.ts';
import type { NewSeenAlert } from '../../protocol/seen-alert.ts';
import {
  type Calibration,
  calibrationSchema,
  type NewCalibration,
  type NewSensorLabel,
} from '../../protocol/sensor-label.ts';
import { type NewSignOff, type SignOff, signOffSchema } from '../../protocol/sign-off.ts';
import { type SheetEntry, sheetEntrySchema } from '../../protocol/sheet.ts';
import type { TypedCorrection, TypedReading } from '../../protocol/typed-in.ts';
import type { Failure } from '../words/say-failure.ts';
import type { Speech } from '../words/speech.ts';

export type Answer<T> =
  { readonly ok: true; readonly value: T } | (Failure & { readonly ok: false });

const UNREACHABLE: Failure = { code: 'unreachable', detail: '' };
const NOT_UNDERSTOOD: Failure = { code: 'not_understood', detail: '' };

export async function listRehearsals(): Promise<Answer<readonly RehearsalCard[]>> {
  const answer = await ask('GET', 'rehearsals', undefined, rehearsalListSchema);
  return answer.ok ? { ok: true, value: answer.value.rehearsals } : answer;
}

export function startRehearsal(start: StartRehearsal): Promise<Answer<Recording>> {
  return ask('POST', 'rehearsals', start, recordingSchema);
}

export function steerRehearsal(steer: SteerRehearsal): Promise<Answer<unknown>> {
  return ask('POST', 'rehearsals/current', steer, null);
}

export function callCause(call: NewCall): Promise<Answer<Call>> {
  return ask('POST', 'rehearsals/call', call, callSchema);
}

export function revealRehearsal(wish: RevealWish): Promise<Answer<Reveal>> {
  return ask('POST', 'rehearsals/reveal', wish, revealSchema);
}

export async function listResults(): Promise<Answer<readonly RehearsalResult[]>> {
  const answer = await ask('GET', 'rehearsals/results', undefined, resultListSchema);
  return answer.ok ? { ok: true, value: answer.value.results } : answer;
}

export function listJobs(query: Partial<JobQuery>): Promise<Answer<JobList>> {
  const asked = new URLSearchParams(
    Object.entries(query).map(([name, value]): [string, string] => [name, String(value)]),
  );
  return ask('GET', `jobs?${asked.toString()}`, undefined, jobListSchema);
}

export async function jobCurves(job: JobPlace): Promise<Answer<readonly JobCurve[]>> {
  const answer = await ask('GET', `${jobPath(job)}/curves`, undefined, jobCurvesSchema);
  return answer.ok ? { ok: true, value: answer.value.curves } : answer;
}

export function archiveJob(job: JobPlace, archived: boolean): Promise<Answer<JobCard>> {
  return ask('POST', `${jobPath(job)}/archive`, { archived }, jobCardSchema);
}

export function deleteJob(job: JobPlace): Promise<Answer<unknown>> {
  return ask('POST', `${jobPath(job)}/delete`, { forGood: true }, null);
}

export function signOff(recordingId: number, signed: NewSignOff): Promise<Answer<SignOff>> {
  return ask('POST', `recordings/${recordingId}/sign-offs`, signed, signOffSchema);
}

export function recordingDetail(recordingId: number): Promise<Answer<RecordingDetail>> {
  return ask('GET', `recordings/${recordingId}`, undefined, recordingDetailSchema);
}

export function takeMarkBack(recordingId: number, markId: number): Promise<Answer<unknown>> {
  return ask('POST', `recordings/${recordingId}/marks/${markId}/take-back`, {}, null);
}

export function giveCalibration(calibration: NewCalibration): Promise<Answer<Calibration>> {
  return ask('POST', 'sensor-calibrations', calibration, calibrationSchema);
}

/** The job with its marks, for the first of a recording 0. */
export type JobPlace = Pick<JobCard, 'recordingId' | 'beginMark'>;

function jobPath({ recordingId, beginMark }: JobPlace): string {
  return `recordings/${recordingId}/jobs/${beginMark}`;
}

export function addMark(recordingId: number, mark: NewMark): Promise<Answer<Mark>> {
  return ask('POST', `recordings/${recordingId}/marks`, mark, markSchema);
}

export function enterOnSheet(recordingId: number, entry: SheetEntry): Promise<Answer<unknown>> {
  return ask('POST', `recordings/${recordingId}/sheet`, entry, null);
}

export async function listPreparedSheets(): Promise<Answer<readonly PreparedSheet[]>> {
  const answer = await ask('GET', 'prepared-sheets', undefined, preparedSheetListSchema);
  return answer.ok ? { ok: true, value: answer.value.sheets } : answer;
}

export function keepPreparedSheet(sheet: NewPreparedSheet): Promise<Answer<PreparedSheet>> {
  return ask('POST', 'prepared-sheets', sheet, preparedSheetSchema);
}

export function usePreparedSheet(
  prepared: number,
  where: UsePreparedSheet,
): Promise<Answer<SheetEntry>> {
  return ask('POST', `prepared-sheets/${prepared}/use`, where, sheetEntrySchema);
}

export function discardPreparedSheet(prepared: number): Promise<Answer<unknown>> {
  return ask('POST', `prepared-sheets/${prepared}/discard`, {}, null);
}

export function tellSeen(recordingId: number, seen: NewSeenAlert): Promise<Answer<unknown>> {
  return ask('POST', `recordings/${recordingId}/seen-alerts`, seen, null);
}

export async function listSensorLabels(): Promise<Answer<readonly GivenLabel[]>> {
  const answer = await ask('GET', 'sensor-labels', undefined, sensorLabelListSchema);
  return answer.ok ? { ok: true, value: answer.value.labels } : answer;
}

export function giveSensorLabel(label: NewSensorLabel): Promise<Answer<GivenLabel>> {
  return ask('POST', 'sensor-labels', label, givenLabelSchema);
}

export function typeIn(reading: TypedReading): Promise<Answer<Recording>> {
  return ask('POST', 'typed-in', reading, recordingSchema);
}

export function correctTyped(correction: TypedCorrection): Promise<Answer<Recording>> {
  return ask('POST', 'typed-in/corrections', correction, recordingSchema);
}

export function endTypedIn(): Promise<Answer<Recording>> {
  return ask('POST', 'typed-in/end', {}, recordingSchema);
}

/**
 * @param csv in the one format that the bridge takes
 * @param remark how it was read, kept with the recording; empty: nothing to note
 */
export function importReadings(
  name: string,
  csv: string,
  remark: string,
): Promise<Answer<Recording>> {
  const body = new Blob([csv]);
  if (body.size > MOST_IMPORT_BYTES) {
    // The bridge would hang up in the middle of it, and the reason would be lost.
    return Promise.resolve({ ok: false, code: 'readings_file_too_large', detail: '' });
  }
  const query = new URLSearchParams({ name, remark });
  return send(
    `imports?${query.toString()}`,
    { method: 'POST', headers: { 'content-type': 'text/csv' }, body },
    recordingSchema,
  );
}

/** A file that holds a whole recording, as it was exported. */
export function importWhole(file: File, type: string): Promise<Answer<Recording>> {
  const query = new URLSearchParams({ name: file.name });
  return send(
    `imports?${query.toString()}`,
    { method: 'POST', headers: { 'content-type': type }, body: file },
    recordingSchema,
  );
}

/** A copy of a whole record: what it has more than this one is added. */
export function restoreBackup(file: File): Promise<Answer<Restored>> {
  const headers = { 'content-type': RECORD_MEDIA_TYPE };
  return send('restore', { method: 'POST', headers, body: file }, restoredSchema);
}

export const BACKUP_ADDRESS = 'api/backup';

/** Files of one job, as the row says that they are of: another job of the recording may be another customer's. */
export function jsonAddress({ recordingId, beginMark }: JobPlace): string {
  return `api/recordings/${recordingId}/recording.json?job=${beginMark}`;
}

export function fullCsvAddress({ recordingId, beginMark }: JobPlace): string {
  return `api/recordings/${recordingId}/readings.csv?variant=full&job=${beginMark}`;
}

/** @param channel where the recording has several sensors: which of them */
export function csvAddress(
  { recordingId, beginMark, sensors }: JobPlace & Pick<JobCard, 'sensors'>,
  channel: number,
): string {
  const sensor = sensors.length > 1 ? `&channel=${channel}` : '';
  return `api/recordings/${recordingId}/readings.csv?job=${beginMark}${sensor}`;
}

export function reportAddress(job: JobPlace, speech: Speech): string {
  return `api/recordings/${job.recordingId}/report?${reportQuery(job, speech).toString()}`;
}

/** The same report as a PDF, to be handed over. */
export function reportPdfAddress(job: JobPlace, paper: Paper, speech: Speech): string {
  const query = reportQuery(job, speech);
  query.set('paper', paper);
  return `api/recordings/${job.recordingId}/report.pdf?${query.toString()}`;
}

function reportQuery({ beginMark }: JobPlace, { units, language }: Speech): URLSearchParams {
  const { pressure: unit, temperature } = units;
  return new URLSearchParams({ unit, temperature, language, job: String(beginMark) });
}

export function ask<T>(
  method: 'GET' | 'POST',
  path: string,
  body: unknown,
  schema: z.ZodType<T>,
): Promise<Answer<T>>;
export function ask(
  method: 'GET' | 'POST',
  path: string,
  body: unknown,
  schema: null,
): Promise<Answer<unknown>>;
export function ask(
  method: 'GET' | 'POST',
  path: string,
  body: unknown,
  schema: z.ZodType | null,
): Promise<Answer<unknown>> {
  const json = { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
  return send(path, { method, ...(method === 'POST' ? json : {}) }, schema);
}

async function send<T>(
  path: string,
  request: RequestInit,
  schema: z.ZodType<T>,
): Promise<Answer<T>>;
async function send(
  path: string,
  request: RequestInit,
  schema: z.ZodType | null,
): Promise<Answer<unknown>>;
async function send(
  path: string,
  request: RequestInit,
  schema: z.ZodType | null,
): Promise<Answer<unknown>> {
  try {
    const response = await fetch(`api/${path}`, request);
    const text = await response.text();
    const json: unknown = text === '' ? null : JSON.parse(text);
    if (!response.ok) return { ok: false, ...failureFrom(json) };
    if (schema === null) return { ok: true, value: json };
    const parsed = schema.safeParse(json);
    return parsed.success ? { ok: true, value: parsed.data } : { ok: false, ...NOT_UNDERSTOOD };
  } catch {
    return { ok: false, ...UNREACHABLE };
  }
}

function failureFrom(json: unknown): Failure {
  const parsed = apiErrorSchema.safeParse(json);
  if (!parsed.success) return UNREACHABLE;
  const { code, detail } = parsed.data;
  return { code, detail };
}
