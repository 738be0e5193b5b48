/** Readings as CSV, in parts, so that a long recording is never whole in memory. */
import { setImmediate } from 'node:timers/promises';
import { FULL_CSV_HEADER, FullCsvRows } from '../../protocol/full-csv.ts';
import type { Reading } from '../../protocol/reading.ts';
import { readingsFromColumns } from '../../protocol/reading.ts';
import {
  formatReadingsCsvRows,
  isCsvEvent,
  READINGS_CSV_HEADER,
} from '../../protocol/readings-csv.ts';
import type { CsvRow } from '../../protocol/readings-csv.ts';
import type { RecordedReading } from '../../protocol/recording-json.ts';
import type { Recording } from '../../protocol/recording.ts';
import { inDataTime } from './in-data-time.ts';
import { offsetMinutesAt } from './offset-minutes.ts';
import type { RecordAccess } from './recordings.ts';

/** Some milliseconds' work: between two parts the bridge gets to its other work. */
const AT_A_TIME = 2000;

/**
 * In the order of data time. Marks of the kinds that the format knows stand on the first reading at or after them.
 */
export async function* csvParts(
  record: RecordAccess,
  recordingId: number,
  channel: number | undefined,
): AsyncGenerator<string> {
  const events = record
    .marks(recordingId)
    .flatMap(({ kind, elapsedS }) => (isCsvEvent(kind) ? [{ kind, elapsedS }] : []))
    .sort((a, b) => a.elapsedS - b.elapsedS);
  yield READINGS_CSV_HEADER;
  for (const readings of inDataTime(() => chunksOf(record, recordingId, channel))) {
    const rows = readings.map((reading): CsvRow => {
      const event =
        events[0] && events[0].elapsedS <= reading.elapsedS ? events.shift() : undefined;
      return {
        elapsedS: reading.elapsedS,
        pressurePa: reading.pressurePa,
        event: event?.kind ?? null,
        temperatureC: reading.temperatureC,
      };
    });
    yield formatReadingsCsvRows(rows);
    await setImmediate();
  }
}

/** In the order of the record. */
function* chunksOf(
  record: RecordAccess,
  recordingId: number,
  channel: number | undefined,
): Generator<Reading[]> {
  for (let after = 0; ;) {
    const columns = record.readingsAfter(recordingId, after, AT_A_TIME);
    const last = columns.index.at(-1);
    if (last === undefined) return;
    after = last;
    const readings = readingsFromColumns(columns);
    yield readings.filter((reading) => channel === undefined || reading.channel === channel);
  }
}

/** With all that each reading has, those that were taken back among them, and each mark where it belongs. */
export async function* fullCsvParts(
  record: RecordAccess,
  recording: Recording,
  channel: number | undefined,
): AsyncGenerator<string> {
  const { id, startedAtMs } = recording;
  const rows = new FullCsvRows(recording, record.takenBack(id), offsetMinutesAt(startedAtMs));
  const holding = record.marks(id).map((mark) => ({ mark, atMs: null }));
  const slips = record.facts.marksTakenBack(id).map(({ atMs, ...mark }) => ({ mark, atMs }));
  const marks = [...holding, ...slips].sort(
    (a, b) => a.mark.elapsedS - b.mark.elapsedS || a.mark.id - b.mark.id,
  );
  const untilIndex = record.lastIndex(id);
  yield FULL_CSV_HEADER;
  for (const readings of inDataTime(() => allOf(record, id, untilIndex))) {
    let part = '';
    for (const reading of readings) {
      while (marks[0] && marks[0].mark.elapsedS < reading.elapsedS) part += nextMark();
      if (channel === undefined || reading.channel === channel) part += rows.reading(reading);
    }
    yield part;
    await setImmediate();
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
