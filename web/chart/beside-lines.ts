/** The curves of the sensors that are not watched, for the chart. */
import type { TimeRange } from '../figure/time-range.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { BesideLine } from './chart-picture.ts';

/** @param names of all sensors of the recording, by channel */
export function besideLines(
  followed: FollowedRecording,
  names: readonly string[],
  range: TimeRange,
): BesideLine[] {
  const watched = followed.channel.peek();
  return names.flatMap((name, channel) => {
    if (channel === watched) return [];
    const curve = followed.curveOf(channel);
    return [{ name, curve, series: curve.drawn(range) }];
  });
}
