/** The API over typed-in readings: type one, put a slip right, end the recording that they make. */
import type { FastifyInstance } from 'fastify';
import { recordingSchema } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { typedCorrectionSchema, typedReadingSchema } from '../../protocol/typed-in.ts';
import type { TypedCorrection, TypedReading } from '../../protocol/typed-in.ts';
import { described, json } from './described.ts';

/** Each resolves with the recording once all of it is durable. */
export interface TypedInAccess {
  /** @throws ProblemError `before_recording` */
  type(reading: TypedReading): Promise<Recording>;
  /** @throws ProblemError `nothing_typed_in`, `not_found` */
  correct(correction: TypedCorrection): Promise<Recording>;
  /** @throws ProblemError `nothing_typed_in` */
  end(): Promise<Recording>;
}

const TYPE = {
  summary: 'A reading that somebody read off a gauge; a recording begins with the first one.',
  body: json(typedReadingSchema),
  answer: { status: 201, content: json(recordingSchema) },
  problems: ['before_recording'],
} as const;
const CORRECT = {
  summary: 'Takes a typed-in reading back, and puts in its place what it should have been.',
  body: json(typedCorrectionSchema),
  answer: { status: 201, content: json(recordingSchema) },
  problems: ['nothing_typed_in', 'not_found'],
} as const;
const END = {
  summary: 'Ends the recording of typed-in readings.',
  answer: { status: 200, content: json(recordingSchema) },
  problems: ['nothing_typed_in'],
} as const;

export function serveTypedIn(server: FastifyInstance, typedIn: TypedInAccess): void {
  server.post('/api/typed-in', described(TYPE), async (request, reply) => {
    const recording = await typedIn.type(typedReadingSchema.parse(request.body));
    return reply.status(201).send(recording);
  });

  server.post('/api/typed-in/corrections', described(CORRECT), async (request, reply) => {
    const recording = await typedIn.correct(typedCorrectionSchema.parse(request.body));
    return reply.status(201).send(recording);
  });

  server.post('/api/typed-in/end', described(END), () => typedIn.end());
}
