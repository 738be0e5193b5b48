/** The API's document: of the form that OpenAPI 3.1 asks for, whole, and true of what a bridge answers. */
import Fastify from 'fastify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { recordingSchema } from '../../protocol/recording.ts';
import { serveApiDocument } from '../../server/http/api-document.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

/** The rules of OpenAPI 3.1.1 for the parts that our document has (sections 4.8.1 to 4.8.24). */
const schemaObject = z.union([z.boolean(), z.looseObject({ $schema: z.undefined().optional() })]);
const content = z.record(
  z.string().regex(/^[\w.+*-]+\/[\w.+*-]+$/u),
  z.strictObject({ schema: schemaObject.optional() }),
);
const parameter = z
  .strictObject({
    name: z.string().min(1),
    in: z.enum(['path', 'query']),
    required: z.boolean(),
    description: z.string().optional(),
    schema: schemaObject,
  })
  .refine((one) => one.in === 'query' || one.required, 'a part of the path is always required');
const operation = z.strictObject({
  operationId: z.string().regex(/^[a-z][a-zA-Z]+$/u),
  summary: z.string().min(10).max(120),
  description: z.string().optional(),
  parameters: z.array(parameter).optional(),
  requestBody: z.strictObject({ required: z.boolean(), content }).optional(),
  responses: z.record(
    z.string().regex(/^[1-5]\d\d$/u),
    z.strictObject({
      description: z.string().min(1),
      headers: z
        .record(z.string(), z.strictObject({ description: z.string(), schema: schemaObject }))
        .optional(),
      content: content.optional(),
    }),
  ),
});
const documentSchema = z.strictObject({
  openapi: z.literal('3.1.1'),
  info: z.strictObject({
    title: z.string(),
    version: z.string(),
    summary: z.string(),
    description: z.string(),
    license: z.strictObject({ name: z.string(), identifier: z.string() }),
  }),
  servers: z.array(z.strictObject({ url: z.string() })),
  paths: z.record(
    z.string().startsWith('/'),
    z.strictObject({ get: operation.optional(), post: operation.optional() }),
  ),
  components: z.strictObject({
    schemas: z.record(z.string().regex(/^[\w.-]+$/u), schemaObject),
  }),
});
type ApiDocument = z.infer<typeof documentSchema>;

let bridge: RunningBridge;
let document: ApiDocument;
let recordingId = 0;

beforeAll(async () => {
  bridge = await runBridge();
  document = documentSchema.parse(await (await ask('/api/openapi.json')).json());
  const answer = await fetch(new URL('api/rehearsals', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ name: 'quarry-road-bakery', rate: 120 }),
  });
  recordingId = recordingSchema.parse(await answer.json()).id;
});
afterAll(() => bridge.remove());

const ask = (path: string): Promise<Response> => fetch(new URL(path, bridge.url));

function operations() {
  return Object.entries(document.paths).flatMap(([path, { get, post }]) => [
    ...(get ? [{ path, method: 'GET', said: get }] : []),
    ...(post ? [{ path, method: 'POST', said: post }] : []),
  ]);
}

describe('the document', () => {
  test('names each operation once, and each part of a path as a parameter', () => {
    const ids = operations().map(({ said }) => said.operationId);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThan(15);
    for (const { path, said } of operations()) {
      const inPath = (said.parameters ?? []).filter((one) => one.in === 'path');
      const wanted = [...path.matchAll(/\{(\w+)\}/gu)].map(([, name]) => name);
      expect(inPath.map(({ name }) => name)).toEqual(wanted);
      expect(path).not.toContain(':');
    }
  });

  test('refers to nothing that it lacks, and has nothing that nobody can reach', () => {
    const text = JSON.stringify(document);
    const wanted = [...text.matchAll(/"\$ref":"([^"]+)"/gu)].map(([, place]) => place ?? '');
    const there = Object.keys(document.components.schemas);
    const places = there.map((name) => `#/components/schemas/${name}`);
    expect(wanted.filter((place) => !places.includes(place))).toEqual([]);
    // The stream's messages are told of in words.
    const told = ['ServerMessage', 'ClientMessage'];
    for (const name of told) expect(document.info.description).toContain(`\`${name}\``);
    const reached = new Set([...wanted, ...told.map((name) => `#/components/schemas/${name}`)]);
    expect(places.filter((place) => !reached.has(place))).toEqual([]);
  });

  test('is refused rather than handed out with an address left out', async () => {
    const server = Fastify();
    serveApiDocument(server, '0');
    server.get('/api/left-out', () => 1);
    expect((await server.inject('/api/openapi.json')).statusCode).toBe(500);
    await server.close();
  });
});

/** The validator at hand knows the dialect of 2019: there, lists of a set length had other words. */
function inOlderWords(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(inOlderWords);
  if (typeof schema !== 'object' || schema === null) return schema;
  const entries = Object.entries(schema).map(([key, value]) => [key, inOlderWords(value)]);
  const { prefixItems, items, ...rest } = z.looseObject({}).parse(Object.fromEntries(entries));
  if (prefixItems === undefined) return items === undefined ? rest : { ...rest, items };
  return { ...rest, items: prefixItems, additionalItems: items ?? true };
}

describe('a running bridge', () => {
  /** As a program does that has nothing but the document. */
  async function problemsOf(schema: unknown, ...answers: readonly unknown[]): Promise<unknown[]> {
    const server = Fastify({
      ajv: { customOptions: { strict: false, coerceTypes: false, removeAdditional: false } },
    });
    let found: unknown[] = ['not looked at'];
    server.get('/', (request) => {
      const older = z.looseObject({}).parse(inOlderWords(schema));
      const validate = request.compileValidationSchema(older);
      found = answers.map((answer) => (validate(answer) ? null : validate.errors));
      return {};
    });
    await server.inject('/');
    await server.close();
    return found;
  }

  test(
    'answers each address that is asked for as the document says',
    { timeout: 90_000 },
    async () => {
      const asked: string[] = [];
      for (const { path, method, said } of operations()) {
        if (method !== 'GET') continue;
        const answer = await ask(
          path.replace('{id}', String(recordingId)).replace('{beginMark}', '0'),
        );
        expect(`${path}: ${answer.status}`).toBe(`${path}: 200`);
        const type = answer.headers.get('content-type')?.split(';')[0] ?? '';
        const promised = said.responses['200'];
        expect(Object.keys(promised?.content ?? {})).toContain(type);
        const hasName = answer.headers.has('content-disposition');
        expect(hasName).toBe(promised?.headers?.['content-disposition'] !== undefined);
        const schema = promised?.content?.[type]?.schema;
        const body = await answer.arrayBuffer();
        if (schema === undefined) continue;
        const json: unknown = JSON.parse(new TextDecoder().decode(body));
        const within = { ...z.looseObject({}).parse(schema), components: document.components };
        // Made ready once for both, which takes most of the time: it is no schema that takes everything.
        const [ofAnswer, ofNothing] = await problemsOf(within, json, {});
        expect(ofAnswer).toBeNull();
        expect(ofNothing).not.toBeNull();
        asked.push(path);
      }
      expect(asked.length).toBeGreaterThanOrEqual(8);
    },
  );

  test('fails as the document says, and takes no body that it calls wrong', async () => {
    const none = await ask('/api/recordings/4711');
    const said = document.paths['/api/recordings/{id}']?.get?.responses['404'];
    const schema = said?.content?.['application/json']?.schema;
    const within = { ...z.looseObject({}).parse(schema), components: document.components };
    expect(await problemsOf(within, await none.json())).toEqual([null]);
    for (const { path, method, said: post } of operations()) {
      if (method !== 'POST' || !post.requestBody?.content['application/json']) continue;
      const answer = await fetch(
        new URL(path.replace('{id}', String(recordingId)).replace('{beginMark}', '0'), bridge.url),
        {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify({ nonsense: true }),
        },
      );
      // What stands in the way of any body may be said before it.
      expect([400, 409]).toContain(answer.status);
      expect(Object.keys(post.responses)).toContain(String(answer.status));
    }
  });
});
