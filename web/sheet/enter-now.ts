/** Enters something on the job sheet, as of now in data time. */
import type { Recording } from '../../protocol/recording.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import { enterOnSheet } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { presentS } from '../store/present-time.ts';

/** @returns null where that failed, which is then said */
export function enterNow(
  followed: FollowedRecording,
  recording: Recording,
  fields: SheetEntry['fields'],
): Promise<unknown> {
  // Of a job that has no reading yet it stands where the job begins, and not in another one.
  const { fromS } = followed.job.peek();
  const latestS = Math.max(fromS, followed.latest.peek()?.elapsedS ?? fromS);
  const elapsedS = presentS(recording, latestS, Date.now());
  return tell(enterOnSheet(recording.id, { elapsedS, fields }));
}
