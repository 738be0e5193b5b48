/** A recording, or one job of it, as one JSON file, in parts, so that a long one is never whole in memory. */
import { isWithin, type Job } from '../../protocol/job.ts';
import {
  type ColumnValue,
  type RecordedReading,
  recordingJsonParts,
} from '../../protocol/recording-json.ts';
import type { Recording } from '../../protocol/recording.ts';
import { factsOfJob } from './facts-of-job.ts';
import type { RecordAccess } from './record-access.ts';
import { withPauses } from './with-pauses.ts';

export async function jsonParts(
  record: RecordAccess,
  recording: Recording,
  job: Job,
  softwareVersion: string,
): Promise<AsyncGenerator<string>> {
  const { id } = recording;
  const verified = await record.verified(id);
  // At one moment, without a pause between: what comes afterwards is not in the file.
  const untilIndex = record.lastIndex(id);
  const facts = factsOfJob(record, id, job);
  const isWhole = facts.job === null;
  // The chain is over all facts of the recording, and those of one job can't be held against it.
  const head = { softwareVersion, recording, ...facts, verified: isWhole ? verified : null };
  const column = (name: keyof RecordedReading) => record.facts.column(id, name, untilIndex);
  return withPauses(
    recordingJsonParts(head, (name) =>
      isWhole ? column(name) : within(job, column('elapsedS'), column(name)),
    ),
  );
}

/** @param times of the same readings, in the same parts */
function* within(
  job: Job,
  times: Iterable<readonly ColumnValue[]>,
  column: Iterable<readonly ColumnValue[]>,
): Generator<readonly ColumnValue[]> {
  const later = times[Symbol.iterator]();
  for (const values of column) {
    const own = later.next();
    const elapsedS = own.done === true ? [] : own.value;
    yield values.filter((_, row) => isWithin(job, Number(elapsedS[row])));
  }
}
