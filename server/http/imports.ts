/** The API over imports: a file of readings becomes a recording. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { importQuerySchema, MOST_IMPORT_BYTES } from '../../protocol/api.ts';
import { ProblemError } from '../../protocol/problems.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { described, json } from './described.ts';

/** Resolves with the recording once it is durable. @throws ProblemError `bad_readings_file` */
export type ReadIn = (name: string, text: string, remark: string) => Promise<Recording>;

const TOO_LARGE = 'FST_ERR_CTP_BODY_TOO_LARGE';

const READ_IN = {
  summary: 'A file of readings becomes a recording of its own, marked as imported.',
  query: importQuerySchema,
  body: { 'text/csv': null },
  answer: { status: 201, content: json(recordingSchema) },
  problems: ['bad_readings_file', 'readings_file_too_large'],
} as const;

export function serveImports(server: FastifyInstance, readIn: ReadIn): void {
  // In a scope of its own: nothing else takes a body of this kind or size.
  void server.register((scope, _options, done) => {
    scope.addContentTypeParser('text/csv', { parseAs: 'string' }, (_request, body, parsed) =>
      parsed(null, body),
    );
    scope.setErrorHandler((error) => {
      const code = error instanceof Error && 'code' in error ? error.code : null;
      throw code === TOO_LARGE ? new ProblemError('readings_file_too_large') : error;
    });
    const options = { bodyLimit: MOST_IMPORT_BYTES, ...described(READ_IN) };
    scope.post('/api/imports', options, async (request, reply) => {
      const { name, remark } = importQuerySchema.parse(request.query);
      const recording = await readIn(name, z.string().parse(request.body), remark);
      return reply.status(201).send(recording);
    });
    done();
  });
}
