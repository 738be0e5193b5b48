/** The API over job sheets that were filled in before anything was recorded. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import {
  MOST_UNUSED,
  type NewPreparedSheet,
  newPreparedSheetSchema,
  type PreparedSheet,
  preparedSheetListSchema,
  preparedSheetSchema,
  type UsePreparedSheet,
  usePreparedSheetSchema,
} from '../../protocol/prepared-sheet.ts';
import { ProblemError } from '../../protocol/problems.ts';
import { type SheetEntry, sheetEntrySchema } from '../../protocol/sheet.ts';
import { described, json } from './described.ts';

export interface PreparedSheetAccess {
  /** The latest first. */
  list(): PreparedSheet[];
  /** The latest moment of a recording at which a job can stand, data time; null: there is none of that number. */
  latestS(recordingId: number): number | null;
  /**
   * Resolves once it is durable.
   * @throws ProblemError `not_found`, `sheet_used`, `too_many_prepared`
   */
  keep(sheet: NewPreparedSheet): Promise<PreparedSheet>;
  /**
   * Enters on the sheet of a job what that does not say yet; resolves once that is durable, and that it was used.
   * @throws ProblemError `not_found`, `sheet_used`
   */
  use(prepared: number, where: UsePreparedSheet): Promise<SheetEntry>;
  /**
   * Resolves once it is gone for good.
   * @throws ProblemError `not_found`, `sheet_used`
   */
  discard(prepared: number): Promise<void>;
}

const LIST = {
  summary: 'Job sheets that were filled in before anything was recorded, the latest first.',
  more: 'Those that a recording has taken over say which.',
  answer: { status: 200, content: json(preparedSheetListSchema) },
} as const;
const KEEP = {
  summary: 'Keeps a job sheet that was filled in beforehand, or changes one.',
  more: `At most ${MOST_UNUSED} wait for their job at once.`,
  body: json(newPreparedSheetSchema),
  answer: { status: 201, content: json(preparedSheetSchema) },
  problems: ['not_found', 'sheet_used', 'too_many_prepared'],
} as const;
const parameters = z.object({ prepared: z.coerce.number().int().min(1) });
const USE = {
  summary: 'Takes a prepared job sheet over: it is entered on the sheet of a recording.',
  more: 'What the job says already stays: the answer has what was entered.',
  body: json(usePreparedSheetSchema),
  answer: { status: 201, content: json(sheetEntrySchema) },
  problems: ['not_found', 'sheet_used'],
} as const;
const DISCARD = {
  summary: 'Deletes a prepared job sheet for good; a tombstone and hashes stay.',
  answer: { status: 204 },
  problems: ['not_found', 'sheet_used'],
} as const;

export function servePreparedSheets(server: FastifyInstance, sheets: PreparedSheetAccess): void {
  server.get(
    '/api/prepared-sheets',
    described(LIST),
    (): z.infer<typeof preparedSheetListSchema> => ({ sheets: sheets.list() }),
  );

  server.post('/api/prepared-sheets', described(KEEP), async (request, reply) => {
    const wanted = newPreparedSheetSchema.parse(request.body);
    return reply.status(201).send(await sheets.keep(wanted));
  });

  server.post('/api/prepared-sheets/:prepared/use', described(USE), async (request, reply) => {
    const where = usePreparedSheetSchema.parse(request.body);
    const { prepared } = parameters.parse(request.params);
    const latestS = sheets.latestS(where.recordingId);
    if (latestS === null) throw new ProblemError('not_found', `recording ${where.recordingId}`);
    if (where.elapsedS > latestS) throw new ProblemError('bad_request', tooLate(where, latestS));
    return reply.status(201).send(await sheets.use(prepared, where));
  });

  server.post(
    '/api/prepared-sheets/:prepared/discard',
    described(DISCARD),
    async (request, reply) => {
      await sheets.discard(parameters.parse(request.params).prepared);
      return reply.status(204).send();
    },
  );
}

function tooLate({ elapsedS }: UsePreparedSheet, latestS: number): string {
  return `elapsedS: ${elapsedS} s lies after all that was recorded; give ${latestS} s at most`;
}
