/** The next thing to do on the recording that is shown: one source for all that say it. */
import { closedUpSinceS } from '../analysis/closing/closed-up.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { type Freshness, isCurrent } from '../store/freshness.ts';
import type { NextStep } from '../words/say-next-step.ts';
import { nextStep } from './next-step.ts';

/** @returns null where nobody can say */
export function nextOf(followed: FollowedRecording, state: Freshness): NextStep | null {
  const conclusions = followed.conclusions.value;
  if (conclusions === null) return null;
  const marks = followed.marks.value;
  const current = isCurrent(state);
  // A sensor that was shut off for closing up falls silent: what is left to do no longer rests on its readings.
  const isClosing =
    conclusions.rise !== null &&
    closedUpSinceS([...marks].sort((a, b) => a.elapsedS - b.elapsedS)) !== null;
  // What to do next is a conclusion as well: not from readings that are no longer true.
  if (!current && state.kind !== 'ended' && !isClosing) return null;
  // Of a recording that is over a verdict still says what to do; nobody knows whether it is still pumped.
  if (!current && conclusions.rise === null) return null;
  return nextStep(conclusions, followed.sheet.value, marks);
}
