/** The API over typed-in readings: type one, end the recording that they make. */
import type { FastifyInstance } from 'fastify';
import { typedReadingSchema } from '../../protocol/api.ts';
import type { TypedReading } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';

/** Both resolve with the recording once all of it is durable. */
export interface TypedInAccess {
  type(reading: TypedReading): Promise<Recording>;
  /** @throws ProblemError `nothing_typed_in` */
  end(): Promise<Recording>;
}

export function serveTypedIn(server: FastifyInstance, typedIn: TypedInAccess): void {
  server.post('/api/typed-in', async (request, reply) => {
    const recording = await typedIn.type(typedReadingSchema.parse(request.body));
    return reply.status(201).send(recording);
  });

  server.post('/api/typed-in/end', () => typedIn.end());
}
