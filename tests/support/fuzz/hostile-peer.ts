/** Throws what no honest client would send at a running bridge, over HTTP and over the stream, and keeps the books. */
import { setTimeout } from 'node:timers/promises';
import { WebSocket } from 'ws';
import { z } from 'zod';
import { openApiSchema } from '../../../protocol/api.ts';
import { RECORD_MEDIA_TYPE } from '../../../protocol/restored.ts';
import { clientMessageSchema } from '../../../protocol/stream.ts';
import { STEADY_RECORDING } from '../bridge-process.ts';
import type { SchemaValues } from './from-schema.ts';
import { type Json } from './from-schema.ts';
import { mutatedBytes, mutatedText, mutatedValue } from './mutated.ts';

/** Whatever takes longer hangs. */
const HANG_MS = 60_000;
/** Answers are judged by their beginning; a report or an export may go on for long. */
const AT_ONCE = 8;

const operationSchema = z.looseObject({
  parameters: z
    .array(z.looseObject({ name: z.string(), in: z.enum(['path', 'query']), schema: z.unknown() }))
    .default([]),
  requestBody: z
    .looseObject({
      content: z.record(z.string(), z.looseObject({ schema: z.unknown().optional() })),
    })
    .optional(),
});

interface Route {
  readonly method: string;
  readonly path: string;
  readonly operation: z.infer<typeof operationSchema>;
}

export interface Answers {
  /** By status. */
  readonly byStatus: Map<number, number>;
  /** What must not be: answers of 5xx, hangs, connections that broke. */
  readonly faults: string[];
}

/** All that the API's own document names: a new route is tormented with the others. */
async function routesOf(url: string): Promise<Route[]> {
  const answer = await fetch(new URL('api/openapi.json', url));
  const { paths } = openApiSchema.parse(await answer.json());
  return Object.entries(paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(([method, operation]) => ({
      method: method.toUpperCase(),
      path,
      operation: operationSchema.parse(operation),
    })),
  );
}

export async function tormentByHttp(
  url: string,
  count: number,
  values: SchemaValues,
): Promise<Answers> {
  const routes = await routesOf(url);
  // What costs the bridge seconds each time is asked for seldom.
  const usual = routes.filter(({ path }) => !/backup|restore|report/u.test(path));
  const answers: Answers = { byStatus: new Map(), faults: [] };
  let left = count;
  const one = async (): Promise<void> => {
    while (left > 0) {
      left -= 1;
      const route = values.of(values.below(100) === 0 ? routes : usual);
      if (route !== undefined) await send(url, route, values, answers);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, one));
  return answers;
}

async function send(
  url: string,
  { method, path, operation }: Route,
  values: SchemaValues,
  { byStatus, faults }: Answers,
): Promise<void> {
  const filled = path.replaceAll(/\{(\w+)\}/gu, () => encodeURIComponent(part(path, values)));
  const address = new URL(filled, url);
  for (const { name, in: place, schema } of operation.parameters) {
    if (place !== 'query' || values.below(2) === 0) continue;
    const value = values.value(schema);
    address.searchParams.append(
      name,
      wireText(values.below(3) ? value : mutatedValue(value, values)),
    );
  }
  const content = Object.entries(operation.requestBody?.content ?? {});
  const [type, { schema } = { schema: undefined }] = values.of(content) ?? [];
  const sent = type === undefined ? null : body(type, schema, values);
  try {
    const answer = await fetch(address, {
      method,
      ...(sent === null ? {} : { body: sent, headers: { 'content-type': type ?? '' } }),
      signal: AbortSignal.timeout(HANG_MS),
    });
    byStatus.set(answer.status, (byStatus.get(answer.status) ?? 0) + 1);
    const text = await beginningOf(answer);
    // Said with its reason to whoever sends too many at once, as is done here.
    const isFull = answer.status === 503 && text.includes('too_many_files');
    if (answer.status >= 500 && !isFull)
      faults.push(`${method} ${address.pathname}: ${answer.status} ${text}\n  ${excerpt(sent)}`);
  } catch (error) {
    const cause = error instanceof Error && error.cause instanceof Error ? error.cause.message : '';
    faults.push(`${method} ${address.pathname}: ${String(error)} ${cause}\n  ${excerpt(sent)}`);
  }
}

/** The steady sensors' job is not deleted: that would be no loss but a deletion. */
function part(path: string, values: SchemaValues): string {
  const low = path.endsWith('delete') || path.includes('jobs') ? STEADY_RECORDING + 1 : 1;
  const odd = ['0', '-1', '1e3', '0x2', '9007199254740993', '__proto__', '%', '../..', 'é', ''];
  return values.below(4) === 0 ? (values.of(odd) ?? '') : String(low + values.below(6));
}

function body(
  type: string,
  schema: unknown,
  values: SchemaValues,
): string | Uint8Array<ArrayBuffer> {
  if (type === RECORD_MEDIA_TYPE)
    return Uint8Array.from(mutatedBytes(Buffer.alloc(4096, 'SQLite format 3\0'), values));
  if (type === 'text/csv')
    return mutatedText(
      'elapsed_s,pressure_pa,event,temperature_c\n0,100,,20\n1,90,note,20\n',
      values,
    );
  const value: Json = values.value(schema);
  const kind = values.below(4);
  if (kind < 2) return JSON.stringify(value);
  if (kind === 2) return JSON.stringify(mutatedValue(value, values));
  return mutatedText(JSON.stringify(value), values);
}

function wireText(value: Json): string {
  return typeof value === 'string' ? value.toWellFormed() : JSON.stringify(value);
}

async function beginningOf(answer: Response): Promise<string> {
  const reader = answer.body?.getReader();
  const first = await reader?.read();
  await reader?.cancel();
  return first?.value === undefined ? '' : Buffer.from(first.value).toString('utf8', 0, 200);
}

function excerpt(sent: string | Uint8Array | null): string {
  return sent === null ? '' : Buffer.from(sent).toString('utf8', 0, 300);
}

const messageJson = z.toJSONSchema(clientMessageSchema, { io: 'input' });

/** A connection lasts until the bridge closes it, with a code that says why. @returns how often by code */
export async function tormentByStream(
  url: string,
  count: number,
  values: SchemaValues,
): Promise<Answers> {
  const address = new URL('stream', url.replace('http', 'ws'));
  const answers: Answers = { byStatus: new Map(), faults: [] };
  for (let left = count; left > 0;) {
    const socket = new WebSocket(address);
    const closed = new Promise<number>((resolve) => {
      socket.on('error', () => undefined);
      socket.on('close', resolve);
    });
    const isOpen = await Promise.race([
      new Promise<boolean>((resolve) => socket.once('open', () => resolve(true))),
      closed.then(() => false),
    ]);
    if (!isOpen) {
      answers.faults.push('the stream was refused');
      return answers;
    }
    const burst = Math.min(left, 1 + values.below(40));
    for (let at = 0; at < burst; at += 1) socket.send(message(values));
    left -= burst;
    // Where nothing of it was wrong it stays open, and ends here.
    const code = await Promise.race([closed, setTimeout(300, 0)]);
    answers.byStatus.set(code, (answers.byStatus.get(code) ?? 0) + 1);
    socket.terminate();
    await closed;
  }
  return answers;
}

function message(values: SchemaValues): string | Uint8Array {
  const value = values.value(messageJson);
  // Of a long row of sound ones, that more of them are heard before the connection is closed.
  const kind = values.below(80);
  if (kind > 2) return JSON.stringify(value);
  if (kind === 0) return JSON.stringify(mutatedValue(value, values));
  if (kind === 1) return mutatedText(JSON.stringify(value), values);
  return mutatedBytes(Buffer.from(JSON.stringify(value)), values);
}
