/** Up to when the system was judged, once its sensor is shut off: what the sensor shows since is its own stub. */
import type { Recording } from '../../protocol/recording.ts';
import { sensorShutOff } from '../analysis/closing/closed-up.ts';
import { momentWords } from '../parts/moment-words.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayShutOff } from '../words/say-reading.ts';

interface ShutOffNoteProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function ShutOffNote({ followed, recording }: ShutOffNoteProps) {
  const conclusions = followed.conclusions.value;
  const shut = conclusions === null ? null : sensorShutOff(followed.marks.value, conclusions);
  if (shut === null) return null;
  const at = momentWords(recording, shut.judgedUpToS ?? shut.atS, speech.value);
  return (
    <p class="shut-off" data-testid="shut-off">
      {sayShutOff(shut, at, speech.value)}
    </p>
  );
}
