/** Says, small, that a pull-down goes faster than the rig can: then not all of the system is on it. */
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import type { ExpectedCurve } from './expected-pull-down.ts';
import { expectedStartS, isTooFast } from './place-expected.ts';

interface FasterNoteProps {
  readonly followed: FollowedRecording;
  readonly curve: ExpectedCurve;
}

export function FasterNote({ followed, curve }: FasterNoteProps) {
  const conclusions = followed.conclusions.value;
  const startS = expectedStartS(curve, followed.readings, conclusions);
  if (conclusions === null || startS === null) return null;
  if (!isTooFast(curve, startS, conclusions, followed.sheet.value)) return null;
  return (
    <p class="faster" data-testid="faster">
      {speech.value.wording.rig.faster}
    </p>
  );
}
