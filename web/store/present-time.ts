/** When, in data time, something is done that a person does now: pure. */
import type { Recording } from '../../protocol/recording.ts';

/**
 * The time of the latest reading, which is never far behind where a sensor sends. Between two typed
 * numbers minutes go by, and only the clock knows how many.
 * @param latestS data time of the latest reading
 * @param nowMs wall clock, milliseconds since 1970 UTC
 */
export function presentS(recording: Recording, latestS: number, nowMs: number): number {
  if (recording.origin !== 'typed_in' || !recording.open) return latestS;
  return Math.max(latestS, (nowMs - recording.startedAtMs) / 1000);
}
