/** Turns failures into answers of one shape, in words that say what to do. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { apiErrorSchema } from '../../protocol/api.ts';
import { PROBLEMS, ProblemError } from '../../protocol/problems.ts';
import type { ProblemCode } from '../../protocol/problems.ts';

const STATUS: Partial<Record<ProblemCode, number>> = {
  bad_request: 400,
  not_found: 404,
  unknown_scenario: 404,
  no_rehearsal: 409,
  no_call: 409,
  already_called: 409,
  already_revealed: 409,
  no_effect: 409,
  recording_closed: 409,
  bad_readings_file: 400,
  bad_backup: 400,
  backup_too_large: 413,
  record_from_newer_version: 409,
  readings_file_too_large: 413,
  nothing_typed_in: 409,
  before_recording: 409,
  job_running: 409,
  job_changed: 409,
  nothing_to_sign: 409,
  sheet_used: 409,
  too_many_prepared: 409,
  job_not_archived: 409,
  foreign_page: 403,
  not_paired: 401,
  not_allowed: 403,
  wrong_code: 403,
  too_many_tries: 429,
  too_many_requests: 429,
  too_many_screens: 409,
  sharing_off: 409,
  no_need_to_pair: 409,
  request_stalled: 408,
  too_many_files: 503,
};

export function statusOf(code: ProblemCode): number {
  return STATUS[code] ?? 500;
}

export function answerProblems(server: FastifyInstance): void {
  server.setErrorHandler(async (error, _request, reply) => {
    const problem = asProblem(error);
    if (!problem) {
      process.stderr.write(
        `${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
      );
      return reply.status(500).send({ message: 'The bridge failed; its terminal says more.' });
    }
    return reply.status(statusOf(problem.code)).send(answer(problem));
  });
  server.setNotFoundHandler(async (request, reply) =>
    reply.status(404).send(answer(new ProblemError('not_found', request.url))),
  );
}

function answer(problem: ProblemError): z.infer<typeof apiErrorSchema> {
  const { code, detail } = problem;
  return { code, message: `${problem.message} ${PROBLEMS[code].remedy}`, detail };
}

function asProblem(error: unknown): ProblemError | null {
  if (error instanceof ProblemError) return error;
  if (error instanceof z.ZodError) return new ProblemError('bad_request', fieldsAtFault(error));
  const status = error instanceof Error && 'statusCode' in error ? Number(error.statusCode) : 500;
  const message = error instanceof Error ? error.message : String(error);
  return status >= 400 && status < 500 ? new ProblemError('bad_request', message) : null;
}

function fieldsAtFault(error: z.ZodError): string {
  return error.issues
    .map((issue) => `${issue.path.join('.') || 'body'}: ${issue.message}`)
    .join('; ');
}
