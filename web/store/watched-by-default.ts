/** Which of several sensors a page watches until somebody chooses another one: pure. */
import type { RecordedSensor } from '../../protocol/recording.ts';

/**
 * The first one that is said to be at the system; else the first that is not said to be at the pump,
 * since from there no verdict can come; else the first.
 * @returns its channel: a position in the list
 */
export function watchedByDefault(sensors: readonly RecordedSensor[]): number {
  const places = sensors.map(({ label }) => label?.place ?? 'unknown');
  const best = ['system', 'unknown'] as const;
  const found = best.map((place) => places.indexOf(place)).find((channel) => channel !== -1);
  return found ?? 0;
}
