/** GET /api/openapi.json: the API as an OpenAPI 3.1 document, made of what each route says of itself. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { apiErrorSchema, openApiSchema } from '../../protocol/api.ts';
import { PROBLEMS } from '../../protocol/problems.ts';
import type { ProblemCode } from '../../protocol/problems.ts';
import { nameOf, namedSchemas, schemaOf } from './api-schemas.ts';
import { described, json } from './described.ts';
import type { Described } from './described.ts';
import { statusOf } from './problem-answers.ts';

interface Route {
  readonly method: string;
  readonly url: string;
  readonly said: Described | undefined;
}

const API = '/api/';

/** Before the other routes: it takes note of each as it is served. */
export function serveApiDocument(server: FastifyInstance, softwareVersion: string): void {
  const routes: Route[] = [];
  server.addHook('onRoute', ({ method, url, config }) => {
    const methods = [method].flat().filter((name) => name !== 'HEAD');
    if (!url.startsWith(API)) return;
    routes.push(...methods.map((name) => ({ method: name, url, said: config?.described })));
  });
  server.get(
    '/api/openapi.json',
    described({
      summary: 'This document.',
      answer: { status: 200, content: json(openApiSchema) },
    }),
    () => documentOf(routes, softwareVersion),
  );
}

function documentOf(routes: readonly Route[], softwareVersion: string) {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const { method, url, said } of routes) {
    if (said === undefined) throw new Error(`${method} ${url} does not say what it takes`);
    const path = url.replaceAll(/:(\w+)/gu, '{$1}');
    paths[path] = { ...paths[path], [method.toLowerCase()]: operation(method, path, said) };
  }
  return {
    openapi: '3.1.1',
    info: {
      title: 'Ebbline',
      version: softwareVersion,
      summary: 'What the bridge has recorded, and what can be done to it.',
      description: DESCRIPTION,
      license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
    },
    servers: [{ url: '/' }],
    paths,
    components: { schemas: namedSchemas() },
  };
}

const DESCRIPTION = [
  'Programs on the same computer may ask for everything. Where the page is shared, paired screens may ask over HTTPS',
  'as far as their role allows. A request from a page of another address is refused.',
  'Pressures are absolute, in pascal. `elapsedS` is data time: seconds since the recording began, on the clock of the sensor.',
  'Live readings come by WebSocket from `/stream`: JSON text messages, those of the bridge as `ServerMessage`,',
  'those to it as `ClientMessage`. The bridge greets; the client says which recording it follows and the last',
  'index that it has; the bridge sends what is missing, a chunk for each `more`, and then what comes.',
].join('\n');

function operation(method: string, path: string, said: Described) {
  const inPath = [...path.matchAll(/\{(\w+)\}/gu)].map(([, name = '']) => partOfPath(path, name));
  const takes = inPath.length > 0 || said.query !== undefined || said.body !== undefined;
  const problems: ProblemCode[] = [...(takes ? ['bad_request' as const] : [])];
  return {
    operationId: operationId(method, path),
    summary: said.summary,
    ...(said.more === undefined ? {} : { description: said.more }),
    ...(takes ? { parameters: [...inPath, ...inQuery(said.query)] } : {}),
    ...(said.body === undefined
      ? {}
      : { requestBody: { required: true, content: contentOf(said.body, 'input') } }),
    responses: {
      [said.answer.status]: answerOf(said),
      ...failures([...problems, ...(said.problems ?? [])]),
    },
  };
}

const PARTS_OF_PATHS: Readonly<Record<string, { minimum: number; description: string }>> = {
  id: { minimum: 1, description: 'Number of the recording.' },
  beginMark: {
    minimum: 0,
    description: 'Number of the mark at which the job begins; 0: it begins with its recording.',
  },
  prepared: { minimum: 1, description: 'Number of the prepared job sheet.' },
  markId: { minimum: 1, description: 'Number of the mark.' },
  screen: { minimum: 1, description: 'Number of the paired screen.' },
};

function partOfPath(path: string, name: string) {
  const part = PARTS_OF_PATHS[name];
  if (part === undefined) throw new Error(`${path} does not say what {${name}} is`);
  const { minimum, description } = part;
  return { name, in: 'path', required: true, schema: { type: 'integer', minimum }, description };
}

/** 'getRecordingsIdReadingsCsv': unlike for each. */
function operationId(method: string, path: string): string {
  const words = path.slice(API.length).match(/[a-z]+/giu) ?? [];
  const capital = words.map((word) => `${word.charAt(0).toUpperCase()}${word.slice(1)}`);
  return `${method.toLowerCase()}${capital.join('')}`;
}

const propertiesSchema = z.object({
  properties: z.record(z.string(), z.record(z.string(), z.unknown())).default({}),
  required: z.array(z.string()).default([]),
});

function inQuery(query: z.ZodObject | undefined) {
  if (query === undefined) return [];
  const { properties, required } = propertiesSchema.parse(schemaOf(query, 'input'));
  return Object.entries(properties).map(([name, { description, ...schema }]) => ({
    name,
    in: 'query',
    required: required.includes(name),
    ...(description === undefined ? {} : { description }),
    schema,
  }));
}

function contentOf(content: Readonly<Record<string, z.ZodType | null>>, io: 'input' | 'output') {
  return Object.fromEntries(
    Object.entries(content).map(([type, schema]) => [
      type,
      schema === null ? {} : { schema: schemaIn(schema, io) },
    ]),
  );
}

/** What is answered has names; what is asked stands where it is asked. */
function schemaIn(schema: z.ZodType, io: 'input' | 'output') {
  const name = io === 'output' ? nameOf(schema) : null;
  return name === null ? schemaOf(schema, io) : { $ref: `#/components/schemas/${name}` };
}

function answerOf({ answer }: Described) {
  const { status, content, isDownload } = answer;
  const said = { 200: 'What was asked for.', 201: 'Done; it is durable.', 204: 'Done.' };
  return {
    description: said[status],
    ...(isDownload === true
      ? {
          headers: {
            'content-disposition': {
              description: 'The name of the file: it sorts by time and says what it is.',
              schema: { type: 'string' },
            },
          },
        }
      : {}),
    ...(content === undefined ? {} : { content: contentOf(content, 'output') }),
  };
}

/** Said before anything of a request is read. */
const OF_EVERY_ADDRESS: readonly ProblemCode[] = [
  'foreign_page',
  'not_paired',
  'not_allowed',
  'too_many_requests',
];

function failures(codes: readonly ProblemCode[]): Record<string, unknown> {
  const byStatus = new Map<number, ProblemCode[]>();
  for (const code of new Set([...codes, ...OF_EVERY_ADDRESS])) {
    const status = statusOf(code);
    byStatus.set(status, [...(byStatus.get(status) ?? []), code]);
  }
  const message = { type: 'object', properties: { message: { type: 'string' } } };
  const bare = (description: string) => ({
    description,
    content: { 'application/json': { schema: message } },
  });
  const answers: Record<string, unknown> = {
    ...(byStatus.has(500) ? {} : { 500: bare('The bridge failed; its terminal says more.') }),
  };
  for (const [status, of] of byStatus) {
    answers[status] = {
      description: of.map((code) => `\`${code}\`: ${PROBLEMS[code].meaning}`).join('\n\n'),
      content: contentOf(json(apiErrorSchema), 'output'),
    };
  }
  return answers;
}
