/** The API over imports: a file of readings, or of a whole recording, becomes a recording. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { importQuerySchema, MOST_IMPORT_BYTES } from '../../protocol/api.ts';
import { isFullCsv } from '../../protocol/full-csv.ts';
import { ProblemError } from '../../protocol/problems.ts';
import { recordingJsonSchema } from '../../protocol/recording-json.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { described, json } from './described.ts';
import { RoomForFiles } from './room-for-files.ts';

/** Resolves with the recording once it is durable. @throws ProblemError `bad_readings_file` */
export type ReadIn = (name: string, text: string, remark: string) => Promise<Recording>;

/** The same of a file that has all facts of a recording. */
export type ReadInWhole = (
  name: string,
  format: 'json' | 'csv',
  text: string,
) => Promise<Recording>;

/** Bytes of bodies: two of the largest, or many small ones. */
const ROOM_BYTES = 2 * MOST_IMPORT_BYTES;
/** Whatever a file holds, looking into it takes a thread of its own, in its turn. */
const LEAST_BYTES = 2 ** 20;
const TOO_LARGE = 'FST_ERR_CTP_BODY_TOO_LARGE';

const READ_IN = {
  summary: 'A file becomes a recording of its own, marked as imported.',
  more:
    'JSON as it is exported, or CSV, plain or full. The same file again makes another recording. ' +
    'A remark is kept with plain CSV alone, which has no place for one.',
  query: importQuerySchema,
  body: { 'text/csv': null, 'application/json': recordingJsonSchema },
  answer: { status: 201, content: json(recordingSchema) },
  problems: ['bad_readings_file', 'readings_file_too_large', 'too_many_files'],
} as const;

export function serveImports(
  server: FastifyInstance,
  readIn: ReadIn,
  readInWhole: ReadInWhole,
): void {
  // In a scope of its own: nothing else takes a body of this kind or size.
  void server.register((scope, _options, done) => {
    scope.removeContentTypeParser('application/json');
    for (const type of ['text/csv', 'application/json']) {
      // JSON is left as text here: it is taken apart in a thread of its own.
      scope.addContentTypeParser(type, { parseAs: 'string' }, (_request, body, parsed) =>
        parsed(null, body),
      );
    }
    scope.setErrorHandler((error) => {
      const code = error instanceof Error && 'code' in error ? error.code : null;
      throw code === TOO_LARGE ? new ProblemError('readings_file_too_large') : error;
    });
    const room = new RoomForFiles(ROOM_BYTES, ({ headers }) =>
      // How large it is stands in front of nearly all; else it may be as large as any.
      Math.max(
        LEAST_BYTES,
        Math.min(MOST_IMPORT_BYTES, Number(headers['content-length'] ?? Infinity)),
      ),
    );
    const { onRequest } = room;
    const options = { onRequest, bodyLimit: MOST_IMPORT_BYTES, ...described(READ_IN) };
    scope.post('/api/imports', options, async (request, reply) => {
      const { name, remark } = importQuerySchema.parse(request.query);
      const text = z.string().parse(request.body);
      const isJson = request.headers['content-type']?.startsWith('application/json') === true;
      const isWhole = isJson || isFullCsv(text);
      const recording = await room.during(request, () =>
        isWhole ? readInWhole(name, isJson ? 'json' : 'csv', text) : readIn(name, text, remark),
      );
      return reply.status(201).send(recording);
    });
    done();
  });
}
