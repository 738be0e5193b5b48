/** The job sheets that were filled in beforehand and wait for their job. */
import { signal } from '@preact/signals';
import type { PreparedSheet } from '../../protocol/prepared-sheet.ts';
import type { Recording } from '../../protocol/recording.ts';
import {
  discardPreparedSheet,
  listPreparedSheets,
  usePreparedSheet,
} from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';

/** The latest first. */
export const preparedSheets = signal<readonly PreparedSheet[]>([]);

/** Another page may have prepared or used one meanwhile. */
export async function lookForPrepared(): Promise<void> {
  const answer = await listPreparedSheets();
  if (!answer.ok) return;
  preparedSheets.value = answer.value.filter(({ usedIn }) => usedIn === null);
}

/** Onto the sheet of the job that is shown, where that begins: what was entered since holds over it. */
export async function takeOver(
  { prepared }: PreparedSheet,
  followed: FollowedRecording,
  recording: Recording,
): Promise<boolean> {
  const elapsedS = followed.job.peek().fromS;
  const used = await tell(usePreparedSheet(prepared, { recordingId: recording.id, elapsedS }));
  await lookForPrepared();
  return used !== null;
}

export async function discard({ prepared }: PreparedSheet): Promise<void> {
  await tell(discardPreparedSheet(prepared));
  await lookForPrepared();
}
