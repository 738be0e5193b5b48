/** Has work that takes long done in a thread of its own, and brings the answer back. */
import { Worker } from 'node:worker_threads';
import { z } from 'zod';
import { ProblemError, PROBLEM_CODES } from '../../protocol/problems.ts';

export const FILE_FORMATS = ['json', 'csv'] as const;

export const asideJobSchema = z.discriminatedUnion('type', [
  /** Copies the record. */
  z.strictObject({ type: z.literal('backup'), dataFolder: z.string(), file: z.string() }),
  /** Looks through the record in a work folder. */
  z.strictObject({ type: z.literal('prepare'), dataFolder: z.string(), workFolder: z.string() }),
  /** Makes a record in a work folder of a file that holds a whole recording. */
  z.strictObject({
    type: z.literal('read_file'),
    format: z.enum(FILE_FORMATS),
    text: z.string(),
    workFolder: z.string(),
  }),
]);
export type AsideJob = z.infer<typeof asideJobSchema>;

const outcomeSchema = z.discriminatedUnion('ok', [
  z.strictObject({ ok: z.literal(true), value: z.unknown() }),
  z.strictObject({ ok: z.literal(false), code: z.enum(PROBLEM_CODES), detail: z.string() }),
]);

/** @throws ProblemError as the work does */
export async function done<T>(job: AsideJob, schema: z.ZodType<T>): Promise<T> {
  const worker = new Worker(new URL('./aside-thread.mjs', import.meta.url), {
    workerData: job,
    // Options of the process that started this one (a test runner's, say) are not the thread's.
    execArgv: [],
  });
  const answer = await new Promise<unknown>((resolve, reject) => {
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => reject(new Error(`the thread ended with ${code}`)));
  });
  const outcome = outcomeSchema.parse(answer);
  if (!outcome.ok) throw new ProblemError(outcome.code, outcome.detail);
  return schema.parse(outcome.value);
}
