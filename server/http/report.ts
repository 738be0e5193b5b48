/** GET /api/recordings/:id/report: the report as one HTML page; the same with .pdf: to be handed over. */
import { setImmediate } from 'node:timers/promises';
import type { FastifyInstance } from 'fastify';
import { printQuerySchema, reportQuerySchema } from '../../protocol/api.ts';
import { readingsFromColumns, type ReceivedColumns } from '../../protocol/reading.ts';
import type { Recording } from '../../protocol/recording.ts';
import { sheetFromEntries } from '../../protocol/sheet.ts';
import type { ReportFacts } from '../../web/report/report-model.ts';
import { reportOf } from '../../web/report/report-of.ts';
import { ReportReadings } from '../../web/report/report-readings.ts';
import { writeReport } from '../../web/report/write-report.ts';
import { speechOf } from '../../web/words/speech-of.ts';
import { type RecordAccess, wanted } from './recordings.ts';
import { contentDisposition } from './report-pdf/file-name.ts';
import { Printing } from './report-pdf/printing.ts';

const CHUNK = 5000;

/** Smaller than those of the page: between two of them the bridge hears what has come. */
const PRINT_CHUNK = 2000;

interface ReportOptions {
  readonly record: RecordAccess;
  readonly softwareVersion: string;
  readonly wallClock: () => number;
}

export function serveReport(server: FastifyInstance, options: ReportOptions): void {
  const { record } = options;
  const printing = new Printing();
  server.get('/api/recordings/:id/report', async (request, reply) => {
    const recording = wanted(record, request.params);
    const { unit, temperature, language } = reportQuerySchema.parse(request.query);
    const readings = await folded(record, recording);
    const speech = speechOf(language, { pressure: unit, temperature });
    const report = reportOf({ ...(await factsOf(recording, options)), speech }, readings);
    return reply.header('content-type', 'text/html; charset=utf-8').send(writeReport(report));
  });

  server.get('/api/recordings/:id/report.pdf', async (request, reply) => {
    const recording = wanted(record, request.params);
    const query = printQuerySchema.parse(request.query);
    const lastIndex = record.lastIndex(recording.id);
    const facts = await factsOf(recording, options);
    const job = {
      ...query,
      facts,
      seenAlerts: record.seenAlerts(recording.id),
      madeAtMs: options.wallClock(),
    };
    const pdf = await printing.print(job, receivedUntil(record, recording.id, lastIndex));
    const named = {
      recording,
      site: sheetFromEntries(facts.entries).site,
      offsetMinutes: facts.offsetMinutes,
      speech: speechOf(query.language, { pressure: query.unit, temperature: query.temperature }),
    };
    return reply
      .header('content-type', 'application/pdf')
      .header('content-disposition', contentDisposition(named))
      .send(Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength));
  });
}

async function factsOf(
  recording: Recording,
  { record, softwareVersion }: ReportOptions,
): Promise<Omit<ReportFacts, 'speech'>> {
  return {
    recording,
    marks: record.marks(recording.id),
    entries: record.sheet(recording.id),
    takenBack: record.takenBack(recording.id),
    verified: await record.verified(recording.id),
    softwareVersion,
    offsetMinutes: offsetAt(recording.startedAtMs),
  };
}

/** @param until index of the last one: a recording may go on growing */
async function* receivedUntil(
  record: RecordAccess,
  id: number,
  until: number,
): AsyncGenerator<ReceivedColumns> {
  let after = 0;
  while (after < until) {
    const columns = record.receivedAfter(id, after, Math.min(PRINT_CHUNK, until - after));
    const last = columns.index.at(-1);
    if (last === undefined) return;
    after = last;
    yield columns;
    await setImmediate();
  }
}

/** Chunk by chunk, with room between them for readings that arrive: a day is a second's work. */
async function folded(record: RecordAccess, { id, origin }: Recording): Promise<ReportReadings> {
  const readings = new ReportReadings(origin === 'typed_in');
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

/** The bridge runs where the work is done, so its own clock's zone is the site's. */
function offsetAt(ms: number): number {
  const offset = new Date(ms).getTimezoneOffset();
  return Number.isNaN(offset) ? 0 : -offset;
}
