/** Whether something is missing between two neighbouring readings, so that no line may join them. */
import { INTERVALS_LOOKED_AT, isGapBetween, usualInterval } from '../analysis/gap.ts';
import type { ChannelReadings } from './channel-readings.ts';

/** `row` is the later of the two readings, from 1 on; `usualIntervalS` comes from `usualIntervalOf`. */
export function isGap(readings: ChannelReadings, row: number, usualIntervalS: number): boolean {
  return isGapBetween(heardAt(readings, row - 1), heardAt(readings, row), usualIntervalS);
}

/** The median of the latest intervals, s; 0 before there are two readings. */
export function usualIntervalOf(readings: ChannelReadings): number {
  const intervalsS: number[] = [];
  for (
    let row = Math.max(1, readings.length - INTERVALS_LOOKED_AT);
    row < readings.length;
    row += 1
  ) {
    intervalsS.push(readings.elapsedS(row) - readings.elapsedS(row - 1));
  }
  return usualInterval(intervalsS);
}

function heardAt(readings: ChannelReadings, row: number) {
  return {
    boot: readings.boot(row),
    sequence: readings.sequence(row),
    elapsedS: readings.elapsedS(row),
  };
}
