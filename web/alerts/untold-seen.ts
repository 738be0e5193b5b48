/** What was seen here and the bridge has not taken yet: kept over a reload, and told with the next connection. */
import { z } from 'zod';
import { newSeenAlertSchema } from '../../protocol/seen-alert.ts';
import type { Recording } from '../../protocol/recording.ts';
import { tellSeen } from '../connection/bridge-api.ts';
import { recall, remember } from '../store/remembered.ts';

const untoldSchema = z.object({
  recordingId: z.int().min(1),
  /** Its beginning as well: another record may use the same number again. */
  startedAtMs: z.number(),
  seen: newSeenAlertSchema,
});
type Untold = z.infer<typeof untoldSchema>;

const KEY = 'untold-seen';
const listSchema = z.array(untoldSchema);

let isTelling = false;

export function addUntold(untold: Untold): void {
  remember(KEY, [...recallAll(), untold]);
}

/** @param recordings those that the bridge has told of; of any other nobody waits to hear */
export async function tellUntold(recordings: readonly Recording[]): Promise<void> {
  if (isTelling) return;
  isTelling = true;
  try {
    let next = recallAll()[0];
    while (next !== undefined) {
      const { recordingId, startedAtMs, seen } = next;
      const isKnown = recordings.some(
        (one) => one.id === recordingId && one.startedAtMs === startedAtMs,
      );
      if (isKnown) {
        const answer = await tellSeen(recordingId, seen);
        // What the bridge refuses it would refuse again.
        const isAway =
          !answer.ok && (answer.code === 'unreachable' || answer.code === 'not_understood');
        if (isAway) return;
      }
      forget(next);
      next = recallAll()[0];
    }
  } finally {
    isTelling = false;
  }
}

function forget({ recordingId, startedAtMs, seen }: Untold): void {
  const isOther = (one: Untold) =>
    one.recordingId !== recordingId ||
    one.startedAtMs !== startedAtMs ||
    one.seen.alert !== seen.alert ||
    one.seen.untilS !== seen.untilS;
  remember(KEY, recallAll().filter(isOther));
}

function recallAll(): readonly Untold[] {
  return recall(KEY, listSchema, []);
}
