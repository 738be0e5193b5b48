/** A recording, or one job of it, as full CSV, in parts, so that a long one is never whole in memory. */
import { isWithin, type Job } from '../../protocol/job.ts';
import { FULL_CSV_HEADER, FullCsvRows } from '../../protocol/full-csv.ts';
import type { RecordedReading } from '../../protocol/recording-json.ts';
import type { Recording } from '../../protocol/recording.ts';
import { factsOfJob } from './facts-of-job.ts';
import { inDataTime } from './in-data-time.ts';
import { offsetMinutesAt } from './offset-minutes.ts';
import type { RecordAccess } from './record-access.ts';

/** Some milliseconds' work. */
const AT_A_TIME = 2000;

/** With all that each reading has, those that were taken back among them, and each mark where it belongs. */
export function* fullCsvParts(
  record: RecordAccess,
  recording: Recording,
  job: Job,
  channel: number | undefined,
): Generator<string> {
  const { id, startedAtMs } = recording;
  const facts = factsOfJob(record, id, job);
  const rows = new FullCsvRows(recording, facts.takenBack, offsetMinutesAt(startedAtMs));
  const holding = facts.marks.map((mark) => ({ mark, atMs: null }));
  const slips = facts.marksTakenBack.map(({ atMs, ...mark }) => ({ mark, atMs }));
  const marks = [...holding, ...slips].sort(
    (a, b) => a.mark.elapsedS - b.mark.elapsedS || a.mark.id - b.mark.id,
  );
  const untilIndex = record.lastIndex(id);
  yield FULL_CSV_HEADER;
  for (const readings of inDataTime(() => allOf(record, id, untilIndex))) {
    let part = '';
    for (const reading of readings) {
      if (!isWithin(job, reading.elapsedS)) continue;
      while (marks[0] && marks[0].mark.elapsedS < reading.elapsedS) part += nextMark();
      if (channel === undefined || reading.channel === channel) part += rows.reading(reading);
    }
    yield part;
  }
  while (marks.length > 0) yield nextMark();

  function nextMark(): string {
    const next = marks.shift();
    return next === undefined ? '' : rows.mark(next.mark, next.atMs);
  }
}

/** In the order of the record; what comes while it is written is not among it. */
function* allOf(
  { facts }: RecordAccess,
  recordingId: number,
  untilIndex: number,
): Generator<RecordedReading[]> {
  for (let after = 0; ;) {
    const readings = facts.readingsAfter(recordingId, after, AT_A_TIME);
    const last = readings.at(-1);
    if (last === undefined || after >= untilIndex) return;
    after = last.index;
    yield readings.filter(({ index }) => index <= untilIndex);
  }
}
