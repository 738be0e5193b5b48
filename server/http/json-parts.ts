/** A recording as one JSON file, in parts, so that a long one is never whole in memory. */
import { recordingJsonParts } from '../../protocol/recording-json.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { RecordAccess } from './record-access.ts';
import { withPauses } from './with-pauses.ts';

export async function jsonParts(
  record: RecordAccess,
  recording: Recording,
  softwareVersion: string,
): Promise<AsyncGenerator<string>> {
  const { id } = recording;
  const verified = await record.verified(id);
  // At one moment, without a pause between: what comes afterwards is not in the file.
  const untilIndex = record.lastIndex(id);
  const head = {
    softwareVersion,
    recording,
    marks: record.marks(id),
    marksTakenBack: record.facts.marksTakenBack(id),
    sheet: record.sheet(id),
    takenBack: record.takenBack(id),
    seenAlerts: record.seenAlerts(id),
    signOffs: record.signOffs(id),
    verified,
  };
  return withPauses(recordingJsonParts(head, (name) => record.facts.column(id, name, untilIndex)));
}
