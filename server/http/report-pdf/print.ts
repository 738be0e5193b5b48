/** From the facts and readings of a recording to its report: a page, or a PDF with the raw data in it. */
import { partOf } from '../../../protocol/part-of-recording.ts';
import {
  type Reading,
  readingsFromColumns,
  type ReceivedColumns,
} from '../../../protocol/reading.ts';
import { isSimulated, isTypedIn } from '../../../protocol/recording.ts';
import { recordingJsonParts } from '../../../protocol/recording-json.ts';
import { documentOf } from '../../../web/report/document-of.ts';
import type { Report } from '../../../web/report/report-model.ts';
import { reportOf } from '../../../web/report/report-of.ts';
import { ReportReadings } from '../../../web/report/report-readings.ts';
import { writeReport } from '../../../web/report/write-report.ts';
import { speechOf } from '../../../web/words/speech-of.ts';
import { csvParts } from '../csv-parts.ts';
import type { PrintJob } from './print-job.ts';
import { type Attachment, writePdf } from './write-pdf.ts';

/** @param chunks in the order of the record */
export function printPdf(job: PrintJob, chunks: readonly ReceivedColumns[]): Promise<Buffer> {
  const { paper, madeAtMs } = job;
  const report = reportIn(job, chunks);
  const channels = new Set(chunks.flatMap(({ channel }) => [...new Set(channel)]));
  const attachments = [
    ...[...channels].sort((a, b) => a - b).map((one) => csvOf(job, chunks, one, channels.size)),
    jsonOf(job, chunks),
  ];
  const document = documentOf(
    report,
    attachments.map(({ name }) => name),
  );
  return writePdf(document, { paper, madeAt: new Date(madeAtMs), attachments });
}

/** @param chunks in the order of the record */
export function printPage(job: PrintJob, chunks: readonly ReceivedColumns[]): Buffer {
  return Buffer.from(writeReport(reportIn(job, chunks)));
}

function reportIn(job: PrintJob, chunks: readonly ReceivedColumns[]): Report {
  const { facts, language, unit, temperature } = job;
  const folded = new ReportReadings(isTypedIn(facts.recording));
  for (const chunk of chunks) folded.insert(holdingIn(job, chunk));
  const speech = speechOf(language, { pressure: unit, temperature });
  return reportOf({ ...facts, speech }, folded);
}

/** The format holds one curve: of several sensors each has a file. */
function csvOf(
  job: PrintJob,
  chunks: readonly ReceivedColumns[],
  channel: number,
  of: number,
): Attachment {
  const parts = csvParts(job.facts.marks, isSimulated(job.facts.recording), function* () {
    for (const chunk of chunks) {
      yield holdingIn(job, chunk).filter((reading) => reading.channel === channel);
    }
  });
  const name = of > 1 ? `readings-sensor-${channel + 1}.csv` : 'readings.csv';
  const bytes = Buffer.concat(Array.from(parts, (part) => Buffer.from(part)));
  return { name, mediaType: 'text/csv', bytes };
}

function jsonOf({ facts, also }: PrintJob, chunks: readonly ReceivedColumns[]): Attachment {
  const { softwareVersion, recording, marks, entries, takenBack, verified } = facts;
  const part = partOf(facts.job);
  // The chain is over all facts of the recording, and those of one job can't be held against it.
  const chain = part === null ? verified : null;
  const said = { softwareVersion, recording, job: part, verified: chain, ...also };
  const head = { ...said, marks: [...marks], sheet: [...entries], takenBack: [...takenBack] };
  const json = recordingJsonParts(head, (name) => chunks.map((chunk) => chunk[name]));
  const parts = Array.from(json, (part) => Buffer.from(part));
  return { name: 'recording.json', mediaType: 'application/json', bytes: Buffer.concat(parts) };
}

/** What was taken back is in the file with all facts, and nowhere else. */
function holdingIn({ facts: { takenBack } }: PrintJob, chunk: ReceivedColumns): Reading[] {
  const slips = new Set(takenBack.map(({ index }) => index));
  return readingsFromColumns(chunk).filter(({ index }) => !slips.has(index));
}
