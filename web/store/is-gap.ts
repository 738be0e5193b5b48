/** Whether something is missing between two neighbouring readings, so that no line may join them. */
import type { ChannelReadings } from './channel-readings.ts';

/**
 * A silence this many times as long as the usual interval is a gap even where the sequence numbers
 * run on (a setting of ours: an interval that was changed by hand grows by less at a time).
 */
const LONG_SILENCE = 20;
/** And no silence shorter than this is called one, s. */
const SHORTEST_SILENCE_S = 5;
const SEQUENCE_WRAP = 2 ** 32;

/** `row` is the later of the two readings, from 1 on; `usualIntervalS` comes from `usualInterval`. */
export function isGap(readings: ChannelReadings, row: number, usualIntervalS: number): boolean {
  if (readings.boot(row) !== readings.boot(row - 1)) return true;
  const step =
    (readings.sequence(row) - readings.sequence(row - 1) + SEQUENCE_WRAP) % SEQUENCE_WRAP;
  if (step > 1) return true;
  const silenceS = readings.elapsedS(row) - readings.elapsedS(row - 1);
  return silenceS > Math.max(SHORTEST_SILENCE_S, LONG_SILENCE * usualIntervalS);
}

/** How many of the latest intervals the usual one is taken from. */
const LATEST = 51;

/** The median of the latest intervals, s; 0 before there are two readings. */
export function usualInterval(readings: ChannelReadings): number {
  const intervals: number[] = [];
  for (let row = Math.max(1, readings.length - LATEST); row < readings.length; row += 1) {
    intervals.push(readings.elapsedS(row) - readings.elapsedS(row - 1));
  }
  intervals.sort((a, b) => a - b);
  return intervals[intervals.length >>> 1] ?? 0;
}
