/** Readings as the record gives them back, for tests of what is made of them. */
import type { Reading } from '../../protocol/reading.ts';

/** One a second, from sequence number 0 on. */
export function recordedReading(at: number, change: Partial<Reading> = {}): Reading {
  return {
    index: at + 1,
    channel: 0,
    boot: 1,
    sequence: at,
    elapsedS: at,
    pressurePa: 100,
    temperatureC: null,
    condition: 'ok',
    ...change,
  };
}
