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
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';

/** The latest first. */
export const preparedSheets = signal<readonly PreparedSheet[]>([]);

/** What a job did not take of the sheet that it took over last, since it said that already. */
export interface LeftOut {
  readonly recordingId: number;
  readonly fields: SheetEntry['fields'];
}
export const leftOut = signal<LeftOut | null>(null);

/** Another page may have prepared or used one meanwhile. */
export async function lookForPrepared(): Promise<void> {
  const answer = await listPreparedSheets();
  if (!answer.ok) return;
  preparedSheets.value = answer.value.filter(({ usedIn }) => usedIn === null);
}

/** Onto the sheet of the job that is shown, where that begins: what that says already stays. */
export async function takeOver(
  { prepared, fields }: PreparedSheet,
  followed: FollowedRecording,
  recording: Recording,
): Promise<boolean> {
  const elapsedS = followed.job.peek().fromS;
  const used = await tell(usePreparedSheet(prepared, { recordingId: recording.id, elapsedS }));
  if (used !== null) leftOut.value = { recordingId: recording.id, fields: without(fields, used) };
  await lookForPrepared();
  return used !== null;
}

export async function discard({ prepared }: PreparedSheet): Promise<void> {
  await tell(discardPreparedSheet(prepared));
  await lookForPrepared();
}

function without(fields: SheetEntry['fields'], taken: SheetEntry): SheetEntry['fields'] {
  return Object.fromEntries(Object.entries(fields).filter(([field]) => !(field in taken.fields)));
}
