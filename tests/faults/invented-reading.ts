/** Readings that say by themselves what they must be: each value follows from the index. */
import type { ReceivedReading } from '../../protocol/reading.ts';

export const SENSORS = 8;

export function invented(index: number): ReceivedReading {
  return {
    channel: index % SENSORS,
    boot: 7,
    sequence: index,
    uptimeMs: index * 100,
    arrivedS: index / 80,
    elapsedS: index / 80,
    pressurePa: index % 13 === 0 ? null : 100 + 50 * Math.sin(index),
    temperatureC: 20 + (index % 7) / 3,
    condition: index % 13 === 0 ? 'over_range' : 'ok',
  };
}
