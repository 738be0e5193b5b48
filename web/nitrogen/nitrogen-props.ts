/** What every part of the nitrogen test's panel is about. */
import type { GaugeUnit } from '../../protocol/gauge-pressure.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';

export interface NitrogenProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly unit: GaugeUnit;
}
