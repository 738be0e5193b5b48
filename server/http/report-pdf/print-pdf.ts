/** From the facts and readings of a recording to its report as a PDF, with the raw data in it. */
import {
  type Reading,
  readingsFromColumns,
  type ReceivedColumns,
} from '../../../protocol/reading.ts';
import { recordingJsonParts } from '../../../protocol/recording-json.ts';
import { documentOf } from '../../../web/report/document-of.ts';
import { reportOf } from '../../../web/report/report-of.ts';
import { ReportReadings } from '../../../web/report/report-readings.ts';
import { speechOf } from '../../../web/words/speech-of.ts';
import { csvParts } from '../csv-parts.ts';
import type { PrintJob } from './print-job.ts';
import { type Attachment, writePdf } from './write-pdf.ts';

/** @param chunks in the order of the record */
export async function printPdf(job: PrintJob, chunks: readonly ReceivedColumns[]): Promise<Buffer> {
  const { facts, language, unit, temperature, paper, madeAtMs } = job;
  const folded = new ReportReadings(facts.recording.origin === 'typed_in');
  const channels = new Set<number>();
  for (const chunk of chunks) {
    folded.insert(readingsOf(chunk));
    for (const channel of chunk.channel) channels.add(channel);
  }
  const speech = speechOf(language, { pressure: unit, temperature });
  const report = reportOf({ ...facts, speech }, folded);
  const attachments = [
    ...[...channels].sort((a, b) => a - b).map((one) => csvOf(job, chunks, one, channels.size)),
    await jsonOf(job, chunks),
  ];
  const document = documentOf(
    report,
    attachments.map(({ name }) => name),
  );
  return writePdf(document, { paper, madeAt: new Date(madeAtMs), attachments });
}

/** The format holds one curve: of several sensors each has a file. */
function csvOf(
  { facts: { marks } }: PrintJob,
  chunks: readonly ReceivedColumns[],
  channel: number,
  of: number,
): Attachment {
  const parts = csvParts(marks, function* () {
    for (const chunk of chunks) {
      yield readingsOf(chunk).filter((reading) => reading.channel === channel);
    }
  });
  const name = of > 1 ? `readings-sensor-${channel + 1}.csv` : 'readings.csv';
  const bytes = Buffer.concat(Array.from(parts, (part) => Buffer.from(part)));
  return { name, mediaType: 'text/csv', bytes };
}

async function jsonOf(
  { facts, seenAlerts }: PrintJob,
  chunks: readonly ReceivedColumns[],
): Promise<Attachment> {
  const { entries: sheet, ...rest } = facts;
  const parts: Buffer[] = [];
  for await (const part of recordingJsonParts({ ...rest, sheet, seenAlerts }, chunks)) {
    parts.push(Buffer.from(part));
  }
  return { name: 'recording.json', mediaType: 'application/json', bytes: Buffer.concat(parts) };
}

function readingsOf(chunk: ReceivedColumns): Reading[] {
  return readingsFromColumns(chunk);
}
