/** A file that holds a whole recording, as a record of one recording, so that all that comes from elsewhere is taken over the same way. */
import { ProblemError } from '../../protocol/problems.ts';
import { FullCsvError, readFullCsv } from '../../protocol/read-full-csv.ts';
import { readRecordingJson, RecordingJsonError } from '../../protocol/read-recording-json.ts';
import type { ReadRecordingJson } from '../../protocol/read-recording-json.ts';
import type { FILE_FORMATS } from './aside.ts';
import { openForWriting } from './open-database.ts';
import { RowWriter } from './row-writer.ts';

/** Any will do, in a record of its own. */
const ID = 1;

/** @throws ProblemError `bad_readings_file`, naming the place */
export function readFile(format: (typeof FILE_FORMATS)[number], text: string): ReadRecordingJson {
  try {
    return format === 'json' ? readRecordingJson(text) : readFullCsv(text);
  } catch (error) {
    if (error instanceof RecordingJsonError || error instanceof FullCsvError) {
      throw new ProblemError('bad_readings_file', error.message, { cause: error });
    }
    throw error;
  }
}

/**
 * Facts as they are, digit by digit: they have been through the sensor's profile once, and its whole
 * millipascals and milliseconds would round what was recorded since.
 */
export function writeRecord(workFolder: string, { head, readings }: ReadRecordingJson): void {
  const database = openForWriting(workFolder);
  try {
    const rows = new RowWriter(database);
    database.transaction(() => {
      writeHead(rows, head);
      for (const reading of readings()) {
        const { index, channel, boot, sequence, uptimeMs, arrivedS, elapsedS } = reading;
        const { pressurePa, temperatureC, condition } = reading;
        const when = [boot, sequence, uptimeMs, arrivedS, elapsedS];
        rows.add('reading', [ID, index, channel, ...when, pressurePa, temperatureC, condition]);
      }
    })();
  } finally {
    database.close();
  }
}

function writeHead(rows: RowWriter, head: ReadRecordingJson['head']): void {
  const { recording, sheet, takenBack, seenAlerts, signOffs } = head;
  const { origin, startedAtMs, title, sensors } = recording;
  rows.add('begin', [ID, origin, startedAtMs, title]);
  for (const [channel, { label, calibratedOn, ...identity }] of sensors.entries()) {
    const kept = { ...identity, said: { label, calibratedOn } };
    rows.add('sensor', [null, ID, channel, JSON.stringify(kept)]);
  }
  const marks = [...head.marks, ...head.marksTakenBack].sort((a, b) => a.id - b.id);
  for (const { id, kind, elapsedS, text, madeBy } of marks) {
    rows.add('mark', [id, ID, kind, elapsedS, text, madeBy]);
  }
  for (const { id, atMs } of head.marksTakenBack) rows.add('mark_taken_back', [ID, id, atMs]);
  for (const { elapsedS, fields } of sheet) {
    rows.add('sheet', [null, ID, elapsedS, JSON.stringify(fields)]);
  }
  for (const { index, insteadPa, atMs } of takenBack) {
    rows.add('take_back', [ID, index, insteadPa, atMs]);
  }
  for (const { alert, untilS, atMs } of seenAlerts) {
    rows.add('seen_alert', [null, ID, alert, untilS, atMs]);
  }
  for (const one of signOffs) {
    const { beginMark, fromS, lastS, name, licence, remark, quoted, softwareVersion, atMs } = one;
    rows.add('sign_off', [
      null,
      ID,
      beginMark,
      fromS,
      lastS,
      name,
      licence,
      remark,
      quoted,
      softwareVersion,
      atMs,
    ]);
  }
}
