/** The API over recordings: list, detail, readings as CSV, marks, sheet entries and seen alerts. */
import { Readable } from 'node:stream';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import {
  csvQuerySchema,
  ofJobQuerySchema,
  recordingDetailSchema,
  recordingListSchema,
} from '../../protocol/api.ts';
import { isWithin, type Job } from '../../protocol/job.ts';
import { markSchema, type NewMark, newMarkSchema } from '../../protocol/mark.ts';
import { ProblemError } from '../../protocol/problems.ts';
import type { Reading } from '../../protocol/reading.ts';
import { readingsFromColumns } from '../../protocol/reading.ts';
import { recordingJsonSchema, recordingJsonSchemaDocument } from '../../protocol/recording-json.ts';
import { isSimulated } from '../../protocol/recording.ts';
import type { Recording } from '../../protocol/recording.ts';
import { newSeenAlertSchema, seenAlertSchema } from '../../protocol/seen-alert.ts';
import { newSheetEntrySchema, sheetEntrySchema } from '../../protocol/sheet.ts';
import { verifiedSchema } from '../../protocol/verified.ts';
import type { Verified } from '../../protocol/verified.ts';
import { described, json } from './described.ts';
import { csvParts } from './csv-parts.ts';
import { fullCsvParts } from './full-csv-parts.ts';
import { factsOfJob, wantedJob } from './facts-of-job.ts';
import { asDownload, recordingFileName } from './file-name.ts';
import { jsonParts } from './json-parts.ts';
import { latestMarkS } from './latest-mark.ts';
import type { RecordAccess } from './record-access.ts';
import { withPauses } from './with-pauses.ts';

const MOST_LISTED = 200;
const CSV_CHUNK = 2000;
const parameters = z.object({ id: z.coerce.number().int().min(1) });
const markParameters = z.object({ markId: z.coerce.number().int().min(1) });

const LIST = {
  summary: 'The latest recordings, the latest first.',
  more: `At most ${MOST_LISTED}.`,
  answer: { status: 200, content: json(recordingListSchema) },
} as const;
const DETAIL = {
  summary:
    'All about a recording but its readings: sensors, marks, job sheet, what was taken back or seen.',
  answer: { status: 200, content: json(recordingDetailSchema) },
  problems: ['not_found'],
} as const;
const READINGS = {
  summary: 'The readings of a recording or of one job of it as CSV, in the order of data time.',
  more:
    'The plain variant is what the analyse command reads. The full one has all that each reading has, marks in ' +
    'rows of their own, and is read in again with the same readings to the last digit.',
  query: csvQuerySchema,
  answer: { status: 200, content: { 'text/csv': null }, isDownload: true },
  problems: ['not_found'],
} as const;
const WHOLE = {
  summary:
    'A recording or one job of it as one JSON file with every fact of it, to be kept or read in again.',
  more: 'Its form is published: /api/schemas/recording.json.',
  query: ofJobQuerySchema,
  answer: { status: 200, content: json(recordingJsonSchema), isDownload: true },
  problems: ['not_found'],
} as const;
const SCHEMA = {
  summary: 'The JSON Schema of a recording as one file.',
  answer: { status: 200, content: { 'application/schema+json': null } },
} as const;
const VERIFIED = {
  summary:
    'Whether the facts of a recording are as they were recorded: its chain of hashes, reckoned anew.',
  answer: { status: 200, content: json(verifiedSchema) },
  problems: ['not_found'],
} as const;
const ADD_MARK = {
  summary: 'Marks an event of the job. Two people who press at once get the same mark.',
  more: 'Not of what has yet to come: after its end a recording takes none later than its last reading.',
  body: json(newMarkSchema),
  answer: { status: 201, content: json(markSchema) },
  problems: ['not_found', 'recording_closed'],
} as const;
const TAKE_MARK_BACK = {
  summary: 'A mark that was set by hand was a slip. It stays in the record, and counts no more.',
  answer: { status: 204 },
  problems: ['not_found'],
} as const;
const ADD_ENTRY = {
  summary: 'Enters something on the job sheet, also once the recording is over.',
  body: json(newSheetEntrySchema),
  answer: { status: 201, content: json(sheetEntrySchema) },
  problems: ['not_found'],
} as const;
const ADD_SEEN = {
  summary: 'Says that somebody has seen an alert, so that no other page calls it out.',
  body: json(newSeenAlertSchema),
  answer: { status: 201, content: json(seenAlertSchema) },
  problems: ['not_found'],
} as const;

export function serveRecordings(
  server: FastifyInstance,
  record: RecordAccess,
  softwareVersion: string,
  wallClock: () => number,
): void {
  server.get('/api/recordings', described(LIST), (): z.infer<typeof recordingListSchema> => {
    return { recordings: record.recordings(MOST_LISTED) };
  });

  server.get(
    '/api/recordings/:id',
    described(DETAIL),
    (request): z.infer<typeof recordingDetailSchema> => {
      const recording = wanted(record, request.params);
      return {
        recording,
        marks: record.marks(recording.id),
        sheet: record.sheet(recording.id),
        marksTakenBack: record.marksTakenBack(recording.id),
        signOffs: record.signOffs(recording.id),
        takenBack: record.takenBack(recording.id),
        seenAlerts: record.seenAlerts(recording.id),
        readingCount: record.lastIndex(recording.id),
      };
    },
  );

  server.get('/api/recordings/:id/readings.csv', described(READINGS), async (request, reply) => {
    const recording = wanted(record, request.params);
    const { channel, variant, job: beginMark } = csvQuerySchema.parse(request.query);
    const job = wantedJob(record, recording.id, beginMark);
    const parts =
      variant === 'full'
        ? fullCsvParts(record, recording, job, channel)
        : plainCsv(record, recording, job, channel);
    const sensor = channel === undefined ? [] : ['sensor', channel + 1];
    const words = [variant === 'full' ? 'full' : '', ...sensor];
    return reply
      .header('content-type', 'text/csv; charset=utf-8')
      .headers(asDownload(recordingFileName(recording, job, words, 'csv')))
      .send(Readable.from(withPauses(parts)));
  });

  server.get('/api/recordings/:id/recording.json', described(WHOLE), async (request, reply) => {
    const recording = wanted(record, request.params);
    const { job: beginMark } = ofJobQuerySchema.parse(request.query);
    const job = wantedJob(record, recording.id, beginMark);
    const parts = await jsonParts(record, recording, job, softwareVersion);
    return reply
      .header('content-type', 'application/json; charset=utf-8')
      .headers(asDownload(recordingFileName(recording, job, [], 'json')))
      .send(Readable.from(parts));
  });

  server.get('/api/schemas/recording.json', described(SCHEMA), (_request, reply) =>
    reply
      .header('content-type', 'application/schema+json; charset=utf-8')
      .send(JSON.stringify(recordingJsonSchemaDocument(), null, 2)),
  );

  server.get('/api/recordings/:id/verified', described(VERIFIED), (request): Promise<Verified> => {
    return record.verified(wanted(record, request.params).id);
  });

  server.post('/api/recordings/:id/marks', described(ADD_MARK), async (request, reply) => {
    const mark = newMarkSchema.parse(request.body);
    const asked = wanted(record, request.params);
    // Where a job begins can be said afterwards; all else is seen while it happens.
    const recording = mark.kind === 'job_begun' ? asked : stillOpen(asked);
    const latestS = latestMarkS(
      recording,
      mark.kind,
      record.lastElapsedS(recording.id),
      wallClock(),
    );
    if (mark.elapsedS > latestS) throw new ProblemError('bad_request', tooLate(mark, latestS));
    const made = await record.addMark(recording.id, mark);
    return reply.status(201).send(made);
  });

  server.post(
    '/api/recordings/:id/marks/:markId/take-back',
    described(TAKE_MARK_BACK),
    async (request, reply) => {
      const recording = wanted(record, request.params);
      const { markId } = markParameters.parse(request.params);
      const mark = record.marks(recording.id).find(({ id }) => id === markId);
      if (mark?.madeBy !== 'hand')
        throw new ProblemError('not_found', `mark ${markId} of recording ${recording.id}`);
      await record.takeMarkBack(recording.id, markId);
      return reply.status(204).send();
    },
  );

  server.post('/api/recordings/:id/sheet', described(ADD_ENTRY), async (request, reply) => {
    const recording = wanted(record, request.params);
    const entered = newSheetEntrySchema.parse(request.body);
    const entry = await record.addSheetEntry(recording.id, entered);
    return reply.status(201).send(entry);
  });

  server.post('/api/recordings/:id/seen-alerts', described(ADD_SEEN), async (request, reply) => {
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

function tooLate({ elapsedS }: NewMark, latestS: number): string {
  return `elapsedS: ${elapsedS} s lies after all that was recorded; give ${latestS} s at most`;
}

function stillOpen(recording: Recording): Recording {
  if (!recording.open) throw new ProblemError('recording_closed', `recording ${recording.id}`);
  return recording;
}

function plainCsv(
  record: RecordAccess,
  recording: Recording,
  job: Job,
  channel: number | undefined,
): Generator<string> {
  const { id } = recording;
  const { marks } = factsOfJob(record, id, job);
  return csvParts(marks, isSimulated(recording), () => chunksOf(record, id, job, channel));
}

/** In the order of the record. */
function* chunksOf(
  record: RecordAccess,
  recordingId: number,
  job: Job,
  channel: number | undefined,
): Generator<Reading[]> {
  for (let after = 0; ;) {
    const columns = record.readingsAfter(recordingId, after, CSV_CHUNK);
    const last = columns.index.at(-1);
    if (last === undefined) return;
    after = last;
    const readings = readingsFromColumns(columns);
    const isOwn = (reading: Reading) => channel === undefined || reading.channel === channel;
    yield readings.filter((reading) => isOwn(reading) && isWithin(job, reading.elapsedS));
  }
}
