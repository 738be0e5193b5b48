/** Requests to the bridge. Every answer is parsed; what goes wrong comes back as words. */
import type { z } from 'zod';
import {
  apiErrorSchema,
  recordingListSchema,
  type RehearsalCard,
  rehearsalListSchema,
  type Reveal,
  revealSchema,
  type StartRehearsal,
  type SteerRehearsal,
} from '../../protocol/api.ts';
import type { NewMark } from '../../protocol/mark.ts';
import { type Recording, recordingSchema } from '../../protocol/recording.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';

export type Answer<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly message: string };

const UNREACHABLE = 'The bridge does not answer. Is it still running?';

export async function listRecordings(): Promise<Answer<readonly Recording[]>> {
  const answer = await ask('GET', 'recordings', undefined, recordingListSchema);
  return answer.ok ? { ok: true, value: answer.value.recordings } : answer;
}

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

export function revealRehearsal(): Promise<Answer<Reveal>> {
  return ask('POST', 'rehearsals/reveal', {}, revealSchema);
}

export function addMark(recordingId: number, mark: NewMark): Promise<Answer<unknown>> {
  return ask('POST', `recordings/${recordingId}/marks`, mark, null);
}

export function enterOnSheet(recordingId: number, entry: SheetEntry): Promise<Answer<unknown>> {
  return ask('POST', `recordings/${recordingId}/sheet`, entry, null);
}

export function csvAddress(recordingId: number): string {
  return `api/recordings/${recordingId}/readings.csv`;
}

async function ask<T>(
  method: 'GET' | 'POST',
  path: string,
  body: unknown,
  schema: z.ZodType<T>,
): Promise<Answer<T>>;
async function ask(
  method: 'GET' | 'POST',
  path: string,
  body: unknown,
  schema: null,
): Promise<Answer<unknown>>;
async function ask(
  method: 'GET' | 'POST',
  path: string,
  body: unknown,
  schema: z.ZodType | null,
): Promise<Answer<unknown>> {
  try {
    const response = await fetch(`api/${path}`, {
      method,
      ...(method === 'POST'
        ? { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }
        : {}),
    });
    const text = await response.text();
    const json: unknown = text === '' ? null : JSON.parse(text);
    if (!response.ok) return { ok: false, message: errorMessage(json) };
    if (schema === null) return { ok: true, value: json };
    const parsed = schema.safeParse(json);
    return parsed.success
      ? { ok: true, value: parsed.data }
      : { ok: false, message: 'The bridge’s answer was not understood. Reload the page.' };
  } catch {
    return { ok: false, message: UNREACHABLE };
  }
}

function errorMessage(json: unknown): string {
  const parsed = apiErrorSchema.safeParse(json);
  return parsed.success ? parsed.data.message : UNREACHABLE;
}
