/** GET /api/recordings/:id/report: the report as one HTML page, to be printed or saved. */
import { setImmediate } from 'node:timers/promises';
import type { FastifyInstance } from 'fastify';
import { reportQuerySchema } from '../../protocol/api.ts';
import { readingsFromColumns } from '../../protocol/reading.ts';
import { isTypedIn, type Recording } from '../../protocol/recording.ts';
import { reportOf } from '../../web/report/report-of.ts';
import { ReportReadings } from '../../web/report/report-readings.ts';
import { writeReport } from '../../web/report/write-report.ts';
import { speechOf } from '../../web/words/speech-of.ts';
import { described } from './described.ts';
import { offsetMinutesAt } from './offset-minutes.ts';
import { type RecordAccess, wanted } from './recordings.ts';

const CHUNK = 5000;

const REPORT = {
  summary: 'The report on a recording, as one page to be printed or saved.',
  query: reportQuerySchema,
  answer: { status: 200, content: { 'text/html': null } },
  problems: ['not_found'],
} as const;

export function serveReport(
  server: FastifyInstance,
  record: RecordAccess,
  softwareVersion: string,
): void {
  server.get('/api/recordings/:id/report', described(REPORT), async (request, reply) => {
    const recording = wanted(record, request.params);
    const { unit, temperature, language } = reportQuerySchema.parse(request.query);
    const readings = await folded(record, recording);
    const report = reportOf(
      {
        recording,
        marks: record.marks(recording.id),
        entries: record.sheet(recording.id),
        takenBack: record.takenBack(recording.id),
        verified: await record.verified(recording.id),
        softwareVersion,
        offsetMinutes: offsetMinutesAt(recording.startedAtMs),
        speech: speechOf(language, { pressure: unit, temperature }),
      },
      readings,
    );
    return reply.header('content-type', 'text/html; charset=utf-8').send(writeReport(report));
  });
}

/** Chunk by chunk, with room between them for readings that arrive: a day is a second's work. */
async function folded(record: RecordAccess, recording: Recording): Promise<ReportReadings> {
  const { id } = recording;
  const readings = new ReportReadings(isTypedIn(recording));
  const until = record.lastIndex(id);
  let after = 0;
  while (after < until) {
    const columns = record.readingsAfter(id, after, Math.min(CHUNK, until - after));
    const last = columns.index.at(-1);
    if (last === undefined) break;
    after = last;
    readings.insert(readingsFromColumns(columns));
    await setImmediate();
  }
  return readings;
}
