/** The API over typed-in readings: type one, put a slip right, end the recording that they make. */
import type { FastifyInstance } from 'fastify';
import type { Recording } from '../../protocol/recording.ts';
import { typedCorrectionSchema, typedReadingSchema } from '../../protocol/typed-in.ts';
import type { TypedCorrection, TypedReading } from '../../protocol/typed-in.ts';

/** Each resolves with the recording once all of it is durable. */
export interface TypedInAccess {
  /** @throws ProblemError `before_recording` */
  type(reading: TypedReading): Promise<Recording>;
  /** @throws ProblemError `nothing_typed_in`, `not_found` */
  correct(correction: TypedCorrection): Promise<Recording>;
  /** @throws ProblemError `nothing_typed_in` */
  end(): Promise<Recording>;
}

export function serveTypedIn(server: FastifyInstance, typedIn: TypedInAccess): void {
  server.post('/api/typed-in', async (request, reply) => {
    const recording = await typedIn.type(typedReadingSchema.parse(request.body));
    return reply.status(201).send(recording);
  });

  server.post('/api/typed-in/corrections', async (request, reply) => {
    const recording = await typedIn.correct(typedCorrectionSchema.parse(request.body));
    return reply.status(201).send(recording);
  });

  server.post('/api/typed-in/end', () => typedIn.end());
}
