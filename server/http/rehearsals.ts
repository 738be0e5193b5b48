/** The API over rehearsals: start one, steer it, call what it is, learn what it really was. */
import type { FastifyInstance } from 'fastify';
import type { z } from 'zod';
import {
  newCallSchema,
  revealWishSchema,
  startRehearsalSchema,
  steerRehearsalSchema,
} from '../../protocol/api.ts';
import type {
  Call,
  NewCall,
  RehearsalCard,
  rehearsalListSchema,
  RehearsalResult,
  resultListSchema,
  Reveal,
  RevealWish,
  StartRehearsal,
  SteerRehearsal,
} from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';

/** What the pages can do with rehearsals. Each throws a ProblemError where it can't be done. */
export interface RehearsalAccess {
  list(): RehearsalCard[];
  /** Resolves with the new recording once its first reading is durable. */
  start(wish: StartRehearsal): Promise<Recording>;
  steer(wish: SteerRehearsal): void;
  /** Resolves once it is durable. */
  call(call: NewCall): Promise<Call>;
  /** Ends the rehearsal; resolves once the reveal is durable. */
  reveal(wish: RevealWish): Promise<Reveal>;
  /** Calls that were followed by a reveal, the latest first. */
  results(): RehearsalResult[];
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
    rehearsals.steer(steerRehearsalSchema.parse(request.body));
    return reply.status(204).send();
  });

  server.post('/api/rehearsals/call', async (request, reply) => {
    const call = await rehearsals.call(newCallSchema.parse(request.body));
    return reply.status(201).send(call);
  });

  server.post('/api/rehearsals/reveal', (request) =>
    rehearsals.reveal(revealWishSchema.parse(request.body)),
  );

  server.get('/api/rehearsals/results', (): z.infer<typeof resultListSchema> => {
    return { results: rehearsals.results() };
  });
}
