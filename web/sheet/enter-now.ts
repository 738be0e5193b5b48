/** Enters something on the job sheet, as of now in data time. */
import type { Recording } from '../../protocol/recording.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import { enterOnSheet } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { presentS } from '../store/present-time.ts';

/** Enters on the sheet of the job that is shown. @returns whether it is there; if not, that is said */
export async function enterNow(
  followed: FollowedRecording,
  recording: Recording,
  fields: SheetEntry['fields'],
): Promise<boolean> {
  const elapsedS = entryTimeS(followed, recording);
  return (await tell(enterOnSheet(recording.id, { elapsedS, fields }))) !== null;
}

/** The data time of what is entered now. */
export function entryTimeS(followed: FollowedRecording, recording: Recording): number {
  // Of a job that has no reading yet it stands where the job begins, and not in another one.
  const { fromS } = followed.job.peek();
  const latestS = Math.max(fromS, followed.latest.peek()?.elapsedS ?? fromS);
  return presentS(recording, latestS, Date.now());
}
