/** Enters fields on the job sheet as of now. */
import type { Recording } from '../../protocol/recording.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import { enterOnSheet } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { presentS } from '../store/present-time.ts';

/** @returns whether it is on the sheet now; a failure has been shown */
export async function enterNow(
  followed: FollowedRecording,
  recording: Recording,
  fields: SheetEntry['fields'],
): Promise<boolean> {
  // Of a job that has no reading yet it stands where the job begins, and not in another one.
  const { fromS } = followed.job.peek();
  const latestS = Math.max(fromS, followed.latest.peek()?.elapsedS ?? fromS);
  const elapsedS = presentS(recording, latestS, Date.now());
  return (await tell(enterOnSheet(recording.id, { elapsedS, fields }))) !== null;
}
