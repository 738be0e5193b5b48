/** GET /api/recordings/:id/report: the report as one HTML page; the same with .pdf: to be handed over. */
import { setImmediate } from 'node:timers/promises';
import type { FastifyInstance } from 'fastify';
import { type PrintQuery, printQuerySchema, reportQuerySchema } from '../../protocol/api.ts';
import { entriesOf, isWithin, type Job, jobOf, jobsIn, WHOLE_JOB } from '../../protocol/job.ts';
import { ProblemError } from '../../protocol/problems.ts';
import type { ReceivedColumns } from '../../protocol/reading.ts';
import { isTypedIn, type Recording } from '../../protocol/recording.ts';
import { salvagesOf } from '../../protocol/salvage-note.ts';
import { sheetFromEntries } from '../../protocol/sheet.ts';
import type { ReportFacts } from '../../web/report/report-model.ts';
import { reportOf } from '../../web/report/report-of.ts';
import { ReportReadings } from '../../web/report/report-readings.ts';
import { writeReport } from '../../web/report/write-report.ts';
import type { Speech } from '../../web/words/speech.ts';
import { speechOf } from '../../web/words/speech-of.ts';
import { described } from './described.ts';
import { offsetMinutesAt } from './offset-minutes.ts';
import type { RecordAccess } from './record-access.ts';
import { wanted } from './recordings.ts';
import { receivedWithin } from './received-within.ts';
import { asDownload } from './file-name.ts';
import { reportFileName } from './report-pdf/file-name.ts';
import type { PrintedAs, PrintJob } from './report-pdf/print-job.ts';
import { Printing } from './report-pdf/printing.ts';

/** Of more than these, judging would keep the bridge from hearing for longer than half a second. */
const LONG = 20_000;
/** Smaller than those of the page: between two of them the bridge hears what has come. */
const PRINT_CHUNK = 2000;

interface ReportOptions {
  readonly record: RecordAccess;
  readonly softwareVersion: string;
  readonly wallClock: () => number;
}

type Facts = Omit<ReportFacts, 'speech'>;

const REPORT = {
  summary: 'The report on a recording or on one job of it, as one page to be printed or saved.',
  query: reportQuerySchema,
  answer: { status: 200, content: { 'text/html': null } },
  problems: ['not_found'],
} as const;
const PRINTED = {
  summary: 'The same report as a PDF, with its readings in it as CSV and all its facts as JSON.',
  query: printQuerySchema,
  answer: { status: 200, content: { 'application/pdf': null }, isDownload: true },
  problems: ['not_found'],
} as const;

export function serveReport(server: FastifyInstance, options: ReportOptions): void {
  const { record } = options;
  const printing = new Printing();
  const printed = async (
    recording: Recording,
    facts: Facts,
    query: Omit<PrintQuery, 'job'>,
    as: PrintedAs,
  ): Promise<Buffer> => {
    const lastIndex = record.lastIndex(recording.id);
    const also = alsoIn(facts.job, recording.id, record);
    const chunks = receivedUntil(record, recording.id, lastIndex, facts.job);
    const job = { ...query, facts, also, madeAtMs: options.wallClock() };
    const bytes = await printing.print(job, chunks, as);
    return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  };

  server.get('/api/recordings/:id/report', described(REPORT), async (request, reply) => {
    const recording = wanted(record, request.params);
    const { job: beginMark, ...query } = reportQuerySchema.parse(request.query);
    const facts = await factsOf(recording, beginMark, options);
    const speech = speechIn(query);
    const page =
      record.lastIndex(recording.id) > LONG
        ? await printed(recording, facts, { ...query, paper: 'A4' }, 'page')
        : writeReport(reportOf({ ...facts, speech }, await folded(record, recording, facts.job)));
    return reply.header('content-type', 'text/html; charset=utf-8').send(page);
  });

  server.get('/api/recordings/:id/report.pdf', described(PRINTED), async (request, reply) => {
    const recording = wanted(record, request.params);
    const { job: beginMark, ...query } = printQuerySchema.parse(request.query);
    const facts = await factsOf(recording, beginMark, options);
    const named = {
      recording,
      job: facts.job,
      site: sheetFromEntries(facts.entries).site,
      offsetMinutes: facts.offsetMinutes,
      speech: speechIn(query),
    };
    return reply
      .header('content-type', 'application/pdf')
      .headers(asDownload(reportFileName(named)))
      .send(await printed(recording, facts, query, 'pdf'));
  });
}

function speechIn({ language, unit, temperature }: Omit<PrintQuery, 'job' | 'paper'>): Speech {
  return speechOf(language, { pressure: unit, temperature });
}

/**
 * What stands in the report of one job is of that job alone: another one may be another customer's.
 * @throws ProblemError `not_found`
 */
async function factsOf(
  recording: Recording,
  beginMark: number | undefined,
  { record, softwareVersion }: ReportOptions,
): Promise<Facts> {
  const { id } = recording;
  const marks = record.marks(id);
  const jobs = jobsIn(marks);
  if (beginMark === undefined && jobs.length > 1) {
    // One may be another customer's: nobody gets both by not asking.
    const all = jobs.map((one) => `job=${one.beginMark}`).join(', ');
    throw new ProblemError('bad_request', `recording ${id} has several jobs, ask for one: ${all}`);
  }
  const job = beginMark === undefined ? WHOLE_JOB : jobOf(marks, beginMark);
  if (job === null) throw new ProblemError('not_found', `job ${beginMark} of recording ${id}`);
  const during = ({ elapsedS }: { readonly elapsedS: number }) => isWithin(job, elapsedS);
  return {
    recording,
    job,
    marks: marks.filter(during),
    marksTakenBack: record.marksTakenBack(id).filter(during),
    entries: job === WHOLE_JOB ? record.sheet(id) : entriesOf(job, record.sheet(id)),
    takenBack: record.takenBack(id).filter(during),
    signOff: record.signOffs(id).findLast((one) => one.beginMark === job.beginMark) ?? null,
    verified: await record.verified(id),
    salvages: salvagesOf(marks),
    softwareVersion,
    offsetMinutes: offsetMinutesAt(recording.startedAtMs),
  };
}

/** What is recorded of a job and stands in no report, but in the file that is in it. */
function alsoIn(job: Job, id: number, record: RecordAccess): PrintJob['also'] {
  const isWhole = job === WHOLE_JOB;
  return {
    seenAlerts: record.seenAlerts(id).filter(({ untilS }) => isWithin(job, untilS)),
    marksTakenBack: record.facts
      .marksTakenBack(id)
      .filter(({ elapsedS }) => isWithin(job, elapsedS)),
    signOffs: record.signOffs(id).filter((one) => isWhole || one.beginMark === job.beginMark),
  };
}

/** @param until index of the last one: a recording may go on growing */
async function* receivedUntil(
  record: RecordAccess,
  id: number,
  until: number,
  job: Job,
): AsyncGenerator<ReceivedColumns> {
  let after = 0;
  while (after < until) {
    const columns = record.facts.columnsAfter(id, after, Math.min(PRINT_CHUNK, until - after));
    const last = columns.index.at(-1);
    if (last === undefined) return;
    after = last;
    yield receivedWithin(columns, job);
    await setImmediate();
  }
}

/** Chunk by chunk, with room between them for readings that arrive: a day is a second's work. */
async function folded(
  record: RecordAccess,
  recording: Recording,
  job: Job,
): Promise<ReportReadings> {
  const readings = new ReportReadings(isTypedIn(recording));
  for await (const chunk of record.readingChunks(recording.id)) {
    readings.insert(chunk.filter(({ elapsedS }) => isWithin(job, elapsedS)));
  }
  return readings;
}
