/** What every part of the leak hunt's panel is about. */
import type { Recording } from '../../protocol/recording.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';

export interface HuntProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}
