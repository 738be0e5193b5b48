/** What was seen here and the bridge has not taken yet: kept over a reload, and told as soon as it can be. */
import { z } from 'zod';
import { newSeenAlertSchema } from '../../protocol/seen-alert.ts';
import type { Recording } from '../../protocol/recording.ts';
import { tellSeen } from '../connection/bridge-api.ts';
import { may } from '../store/this-screen.ts';
import { recall, remember } from '../store/remembered.ts';

const untoldSchema = z.object({
  recordingId: z.int().min(1),
  /** Its beginning as well: another record may use the same number again. */
  startedAtMs: z.number(),
  seen: newSeenAlertSchema,
  /** When it was seen, wall clock. */
  atMs: z.number(),
});
type Untold = z.infer<typeof untoldSchema>;

const KEY = 'untold-seen';
const listSchema = z.array(untoldSchema);

/** After that long nobody waits to hear of it; a week, a setting of ours. */
const FORGOTTEN_AFTER_MS = 7 * 24 * 3600 * 1000;

let isTelling = false;

export function addUntold(untold: Untold): void {
  // Whoever only watches puts it away for this screen alone.
  if (!may('assist')) return;
  remember(KEY, [...recallAll(), untold]);
}

/** @param recordings those that the bridge has told of: any other may be one of another record */
export async function tellUntold(recordings: readonly Recording[]): Promise<void> {
  if (isTelling) return;
  isTelling = true;
  try {
    for (const untold of recallAll()) {
      const { recordingId, startedAtMs, seen, atMs } = untold;
      if (Date.now() - atMs > FORGOTTEN_AFTER_MS) forget(untold);
      const isKnown = recordings.some(
        (one) => one.id === recordingId && one.startedAtMs === startedAtMs,
      );
      if (!isKnown) continue;
      const answer = await tellSeen(recordingId, seen);
      if (!answer.ok && answer.code === 'unreachable') return;
      // What the bridge refuses it would refuse again; what was not understood may go better next time.
      if (answer.ok || answer.code !== 'not_understood') forget(untold);
    }
  } finally {
    isTelling = false;
  }
}

function forget({ recordingId, startedAtMs, seen, atMs }: Untold): void {
  const isOther = (one: Untold) =>
    one.recordingId !== recordingId ||
    one.startedAtMs !== startedAtMs ||
    one.atMs !== atMs ||
    one.seen.alert !== seen.alert;
  remember(KEY, recallAll().filter(isOther));
}

function recallAll(): readonly Untold[] {
  return recall(KEY, listSchema, []);
}
