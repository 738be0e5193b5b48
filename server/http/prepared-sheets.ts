/** The API over job sheets that were filled in before anything was recorded. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import {
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
  hasRecording(recordingId: number): boolean;
  /** Resolves once it is durable. */
  keep(sheet: NewPreparedSheet): Promise<PreparedSheet>;
  /** Enters it on the sheet of a recording; resolves once that is durable, and that it was used. */
  use(sheet: PreparedSheet, where: UsePreparedSheet): Promise<SheetEntry>;
  /** Resolves once it is gone for good. */
  discard(prepared: number): Promise<void>;
}

const LIST = {
  summary: 'Job sheets that were filled in before anything was recorded, the latest first.',
  more: 'Those that a recording has taken over say which.',
  answer: { status: 200, content: json(preparedSheetListSchema) },
} as const;
const KEEP = {
  summary: 'Keeps a job sheet that was filled in beforehand, or changes one.',
  body: json(newPreparedSheetSchema),
  answer: { status: 201, content: json(preparedSheetSchema) },
  problems: ['not_found', 'sheet_used'],
} as const;
const parameters = z.object({ prepared: z.coerce.number().int().min(1) });
const USE = {
  summary: 'Takes a prepared job sheet over: it is entered on the sheet of a recording.',
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
    if (wanted.prepared !== null) unused(wanted.prepared);
    return reply.status(201).send(await sheets.keep(wanted));
  });

  server.post('/api/prepared-sheets/:prepared/use', described(USE), async (request, reply) => {
    const where = usePreparedSheetSchema.parse(request.body);
    const sheet = unused(parameters.parse(request.params).prepared);
    if (!sheets.hasRecording(where.recordingId)) {
      throw new ProblemError('not_found', `recording ${where.recordingId}`);
    }
    return reply.status(201).send(await sheets.use(sheet, where));
  });

  server.post(
    '/api/prepared-sheets/:prepared/discard',
    described(DISCARD),
    async (request, reply) => {
      await sheets.discard(unused(parameters.parse(request.params).prepared).prepared);
      return reply.status(204).send();
    },
  );

  /** @throws ProblemError `not_found`, `sheet_used` */
  function unused(prepared: number): PreparedSheet {
    const sheet = sheets.list().find((one) => one.prepared === prepared);
    if (sheet === undefined) throw new ProblemError('not_found', `prepared sheet ${prepared}`);
    if (sheet.usedIn !== null) {
      throw new ProblemError('sheet_used', `prepared sheet ${prepared}, recording ${sheet.usedIn}`);
    }
    return sheet;
  }
}
