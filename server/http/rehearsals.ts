/** The API over rehearsals: what there is, start one, steer it, learn what was really wrong. */
import type { FastifyInstance } from 'fastify';
import type { z } from 'zod';
import type { rehearsalListSchema } from '../../protocol/api.ts';
import { startRehearsalSchema, steerRehearsalSchema } from '../../protocol/api.ts';
import type { RehearsalCard, Reveal, StartRehearsal, SteerRehearsal } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';

/** What the pages can do with rehearsals. Each throws a ProblemError where it can't be done. */
export interface RehearsalAccess {
  list(): RehearsalCard[];
  /** Resolves with the new recording once its first reading is durable. */
  start(wish: StartRehearsal): Promise<Recording>;
  steer(wish: SteerRehearsal): Promise<void>;
  reveal(): Promise<Reveal>;
}

export function serveRehearsals(server: FastifyInstance, rehearsals: RehearsalAccess): void {
  server.get('/api/rehearsals', (): z.infer<typeof rehearsalListSchema> => {
    return { rehearsals: rehearsals.list() };
  });

  server.post('/api/rehearsals', async (request, reply) => {
    const recording = await rehearsals.start(startRehearsalSchema.parse(request.body));
    return reply.status(201).send(recording);
  });

  server.post('/api/rehearsals/current', async (request, reply) => {
    await rehearsals.steer(steerRehearsalSchema.parse(request.body));
    return reply.status(204).send();
  });

  server.post('/api/rehearsals/reveal', () => rehearsals.reveal());
}
