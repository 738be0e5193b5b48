/** The API over recordings: list, detail, readings as CSV, marks, sheet entries and seen alerts. */
import { Readable } from 'node:stream';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { csvQuerySchema } from '../../protocol/api.ts';
import type { recordingDetailSchema, recordingListSchema } from '../../protocol/api.ts';
import { newMarkSchema } from '../../protocol/mark.ts';
import type { Mark, NewMark } from '../../protocol/mark.ts';
import { ProblemError } from '../../protocol/problems.ts';
import type { Reading, ReadingColumns, ReceivedColumns } from '../../protocol/reading.ts';
import { readingsFromColumns } from '../../protocol/reading.ts';
import type { Recording } from '../../protocol/recording.ts';
import { newSeenAlertSchema } from '../../protocol/seen-alert.ts';
import type { NewSeenAlert, SeenAlert } from '../../protocol/seen-alert.ts';
import { sheetEntrySchema } from '../../protocol/sheet.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { Verified } from '../../protocol/verified.ts';
import { csvParts } from './csv-parts.ts';

/** What the pages need of the record. */
export interface RecordAccess {
  recordings(limit: number): Recording[];
  recording(recordingId: number): Recording | null;
  marks(recordingId: number): Mark[];
  sheet(recordingId: number): SheetEntry[];
  takenBack(recordingId: number): TakenBack[];
  seenAlerts(recordingId: number): SeenAlert[];
  lastIndex(recordingId: number): number;
  readingsAfter(recordingId: number, afterIndex: number, limit: number): ReadingColumns;
  receivedAfter(recordingId: number, afterIndex: number, limit: number): ReceivedColumns;
  verified(recordingId: number): Promise<Verified>;
  addMark(recordingId: number, mark: NewMark): Promise<Mark>;
  addSheetEntry(recordingId: number, entry: SheetEntry): Promise<SheetEntry>;
  addSeenAlert(recordingId: number, seen: NewSeenAlert): Promise<SeenAlert>;
}

const MOST_LISTED = 200;
const CSV_CHUNK = 5000;
const parameters = z.object({ id: z.coerce.number().int().min(1) });

export function serveRecordings(server: FastifyInstance, record: RecordAccess): void {
  server.get('/api/recordings', (): z.infer<typeof recordingListSchema> => {
    return { recordings: record.recordings(MOST_LISTED) };
  });

  server.get('/api/recordings/:id', (request): z.infer<typeof recordingDetailSchema> => {
    const recording = wanted(record, request.params);
    return {
      recording,
      marks: record.marks(recording.id),
      sheet: record.sheet(recording.id),
      takenBack: record.takenBack(recording.id),
      seenAlerts: record.seenAlerts(recording.id),
      readingCount: record.lastIndex(recording.id),
    };
  });

  server.get('/api/recordings/:id/readings.csv', async (request, reply) => {
    const recording = wanted(record, request.params);
    const { channel } = csvQuerySchema.parse(request.query);
    return reply
      .header('content-type', 'text/csv; charset=utf-8')
      .header('content-disposition', `attachment; filename="${csvName(recording, channel)}"`)
      .send(
        Readable.from(
          csvParts(record.marks(recording.id), () => chunksOf(record, recording.id, channel)),
        ),
      );
  });

  server.get('/api/recordings/:id/verified', (request): Promise<Verified> => {
    return record.verified(wanted(record, request.params).id);
  });

  server.post('/api/recordings/:id/marks', async (request, reply) => {
    const recording = stillOpen(wanted(record, request.params));
    const mark = await record.addMark(recording.id, newMarkSchema.parse(request.body));
    return reply.status(201).send(mark);
  });

  server.post('/api/recordings/:id/sheet', async (request, reply) => {
    const recording = wanted(record, request.params);
    const entry = await record.addSheetEntry(recording.id, sheetEntrySchema.parse(request.body));
    return reply.status(201).send(entry);
  });

  server.post('/api/recordings/:id/seen-alerts', async (request, reply) => {
    const recording = wanted(record, request.params);
    const seen = await record.addSeenAlert(recording.id, newSeenAlertSchema.parse(request.body));
    return reply.status(201).send(seen);
  });
}

/** @throws ProblemError `not_found` */
export function wanted(record: RecordAccess, params: unknown): Recording {
  const { id } = parameters.parse(params);
  const recording = record.recording(id);
  if (!recording) throw new ProblemError('not_found', `recording ${id}`);
  return recording;
}

function stillOpen(recording: Recording): Recording {
  if (!recording.open) throw new ProblemError('recording_closed', `recording ${recording.id}`);
  return recording;
}

/** Sorts by time and says what it is. */
function csvName(recording: Recording, channel: number | undefined): string {
  const stamp = new Date(recording.startedAtMs)
    .toISOString()
    .slice(0, 19)
    .replaceAll(/[:T]/gu, '-');
  const sensor = channel === undefined ? '' : `-sensor-${channel + 1}`;
  return `${stamp}-${recording.origin.replace('_', '-')}-${recording.id}${sensor}.csv`;
}

/** In the order of the record. */
function* chunksOf(
  record: RecordAccess,
  recordingId: number,
  channel: number | undefined,
): Generator<Reading[]> {
  for (let after = 0; ;) {
    const columns = record.readingsAfter(recordingId, after, CSV_CHUNK);
    const last = columns.index.at(-1);
    if (last === undefined) return;
    after = last;
    const readings = readingsFromColumns(columns);
    yield readings.filter((reading) => channel === undefined || reading.channel === channel);
  }
}
