/** The API over jobs: finding them, putting them away, signing them, and laying their curves over others. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { beginMarkSchema } from '../../protocol/job.ts';
import {
  archiveWishSchema,
  deleteWishSchema,
  type JobCard,
  jobCardSchema,
  type JobCurve,
  jobCurvesSchema,
  type JobList,
  jobListSchema,
  type JobQuery,
  jobQuerySchema,
} from '../../protocol/job-card.ts';
import { ProblemError } from '../../protocol/problems.ts';
import {
  type NewSignOff,
  newSignOffSchema,
  type SignOff,
  signOffSchema,
} from '../../protocol/sign-off.ts';
import { described, json } from './described.ts';

export interface JobAccess {
  find(query: JobQuery): JobList;
  /** Null where there is no such job. */
  card(recordingId: number, beginMark: number): JobCard | null;
  curves(recordingId: number, beginMark: number): Promise<JobCurve[] | null>;
  /** These resolve once it is durable. */
  archive(recordingId: number, beginMark: number, archived: boolean): Promise<void>;
  deleteForGood(recordingId: number, beginMark: number): Promise<void>;
  signOff(recordingId: number, signOff: NewSignOff): Promise<SignOff>;
}

const parameters = z.object({
  id: z.coerce.number().int().min(1),
  beginMark: z.coerce.number().pipe(beginMarkSchema),
});

const LIST = {
  summary: 'Jobs by site, equipment, day and verdict, the latest first.',
  more: 'A job that is running is judged anew each time somebody asks; what is listed is as it stood before.',
  query: jobQuerySchema,
  answer: { status: 200, content: json(jobListSchema) },
} as const;
const CARD = {
  summary: 'One job as the list has it.',
  answer: { status: 200, content: json(jobCardSchema) },
  problems: ['not_found'],
} as const;
const CURVES = {
  summary: 'The curve of each of its sensors, thinned for drawing.',
  answer: { status: 200, content: json(jobCurvesSchema) },
  problems: ['not_found'],
} as const;
const ARCHIVE = {
  summary: 'Puts a job that is over away, or takes it out of the archive again.',
  body: json(archiveWishSchema),
  answer: { status: 200, content: json(jobCardSchema) },
  problems: ['not_found', 'job_running'],
} as const;
const DELETE = {
  summary:
    'Deletes an archived job for good: readings, marks and entries go, a tombstone and hashes stay.',
  body: json(deleteWishSchema),
  answer: { status: 204 },
  problems: ['not_found', 'job_running', 'job_not_archived'],
} as const;
const SIGN = {
  summary: 'Somebody answers for a job; who signs later holds.',
  body: json(newSignOffSchema),
  answer: { status: 201, content: json(signOffSchema) },
  problems: ['not_found', 'job_changed', 'nothing_to_sign'],
} as const;

export function serveJobs(server: FastifyInstance, jobs: JobAccess): void {
  const wanted = (params: unknown): JobCard => {
    const { id, beginMark } = parameters.parse(params);
    const card = jobs.card(id, beginMark);
    if (card === null) throw new ProblemError('not_found', `job ${beginMark} of recording ${id}`);
    return card;
  };
  const ended = (params: unknown): JobCard => {
    const card = wanted(params);
    if (card.running) throw new ProblemError('job_running', `recording ${card.recordingId}`);
    return card;
  };

  server.get('/api/jobs', described(LIST), (request): JobList => {
    return jobs.find(jobQuerySchema.parse(request.query));
  });

  server.get('/api/recordings/:id/jobs/:beginMark', described(CARD), (request): JobCard => {
    return wanted(request.params);
  });

  server.get(
    '/api/recordings/:id/jobs/:beginMark/curves',
    described(CURVES),
    async (request): Promise<z.infer<typeof jobCurvesSchema>> => {
      const { recordingId, beginMark } = wanted(request.params);
      return { curves: (await jobs.curves(recordingId, beginMark)) ?? [] };
    },
  );

  server.post(
    '/api/recordings/:id/jobs/:beginMark/archive',
    described(ARCHIVE),
    async (request): Promise<JobCard> => {
      const { archived } = archiveWishSchema.parse(request.body);
      const { recordingId, beginMark } = ended(request.params);
      await jobs.archive(recordingId, beginMark, archived);
      return wanted(request.params);
    },
  );

  server.post(
    '/api/recordings/:id/jobs/:beginMark/delete',
    described(DELETE),
    async (request, reply) => {
      deleteWishSchema.parse(request.body);
      const { recordingId, beginMark, archived } = ended(request.params);
      if (!archived) throw new ProblemError('job_not_archived', `recording ${recordingId}`);
      await jobs.deleteForGood(recordingId, beginMark);
      return reply.status(204).send();
    },
  );

  server.post('/api/recordings/:id/sign-offs', described(SIGN), async (request, reply) => {
    const signOff = newSignOffSchema.parse(request.body);
    const { id } = parameters.pick({ id: true }).parse(request.params);
    const card = wanted({ id, beginMark: signOff.beginMark });
    if (card.simulated) throw new ProblemError('nothing_to_sign', `recording ${id}`);
    if (card.fromS !== signOff.fromS) throw new ProblemError('job_changed', `recording ${id}`);
    return reply.status(201).send(await jobs.signOff(id, signOff));
  });
}
