/** The API over rehearsals: start one, steer it, call what it is, learn what it really was. */
import type { FastifyInstance } from 'fastify';
import type { z } from 'zod';
import {
  callSchema,
  newCallSchema,
  rehearsalListSchema,
  resultListSchema,
  revealSchema,
  revealWishSchema,
  startRehearsalSchema,
  steerRehearsalSchema,
} from '../../protocol/api.ts';
import type {
  Call,
  NewCall,
  RehearsalCard,
  RehearsalResult,
  Reveal,
  RevealWish,
  StartRehearsal,
  SteerRehearsal,
} from '../../protocol/api.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { ProblemError } from '../../protocol/problems.ts';
import { described, json } from './described.ts';

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

const LIST = {
  summary: 'What can be rehearsed. The causes are not among it.',
  answer: { status: 200, content: json(rehearsalListSchema) },
} as const;
const START = {
  summary: 'Begins a rehearsal, in place of one that runs; its recording is marked as one.',
  body: json(startRehearsalSchema),
  answer: { status: 201, content: json(recordingSchema) },
  problems: ['unknown_scenario'],
} as const;
const STEER = {
  summary:
    'Works the simulated rig, changes the speed, goes on to the next event, pauses or stops.',
  body: json(steerRehearsalSchema),
  answer: { status: 204 },
  problems: ['no_rehearsal', 'no_effect'],
} as const;
const CALL = {
  summary: 'A trainee says once what the cause is, and how sure they are.',
  body: json(newCallSchema),
  answer: { status: 201, content: json(callSchema) },
  problems: ['no_rehearsal', 'already_called', 'already_revealed'],
} as const;
const REVEAL = {
  summary: 'Ends the rehearsal and says what it really was.',
  body: json(revealWishSchema),
  answer: { status: 200, content: json(revealSchema) },
  problems: ['no_rehearsal', 'no_call'],
} as const;
const RESULTS = {
  summary: 'Every call that was followed by a reveal, the latest first.',
  answer: { status: 200, content: json(resultListSchema) },
} as const;

export function serveRehearsals(server: FastifyInstance, rehearsals: RehearsalAccess): void {
  server.get('/api/rehearsals', described(LIST), (): z.infer<typeof rehearsalListSchema> => {
    return { rehearsals: rehearsals.list() };
  });

  server.post('/api/rehearsals', described(START), async (request, reply) => {
    const recording = await rehearsals.start(startRehearsalSchema.parse(request.body));
    return reply.status(201).send(recording);
  });

  server.post('/api/rehearsals/current', described(STEER), async (request, reply) => {
    const wish = steerRehearsalSchema.parse(request.body);
    // Who assists works the rig; how the rehearsal runs and when it ends is for whoever began it.
    const worksRigOnly = Object.keys(wish).every((key) => key === 'action');
    if (request.asking?.role !== 'owner' && !worksRigOnly) throw new ProblemError('not_allowed');
    rehearsals.steer(wish);
    return reply.status(204).send();
  });

  server.post('/api/rehearsals/call', described(CALL), async (request, reply) => {
    const call = await rehearsals.call(newCallSchema.parse(request.body));
    return reply.status(201).send(call);
  });

  server.post('/api/rehearsals/reveal', described(REVEAL), (request) =>
    rehearsals.reveal(revealWishSchema.parse(request.body)),
  );

  server.get(
    '/api/rehearsals/results',
    described(RESULTS),
    (): z.infer<typeof resultListSchema> => {
      return { results: rehearsals.results() };
    },
  );
}
