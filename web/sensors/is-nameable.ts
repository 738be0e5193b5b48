/** Whether a recording has sensors that a technician can name: pure. */
import type { Recording } from '../../protocol/recording.ts';

/** A rehearsal's sensor is simulated, a file has none, and what is over keeps its names. */
export function isNameable(recording: Recording | null): recording is Recording {
  if (recording === null || !recording.open || recording.sensors.length === 0) return false;
  return recording.origin === 'sensor' || recording.origin === 'typed_in';
}
