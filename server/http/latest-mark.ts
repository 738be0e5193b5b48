/** How late a mark may be: nobody marks what has not happened yet. */
import type { Recording } from '../../protocol/recording.ts';

/** By so much another device's clock, or what is on its way to the page, may be ahead of the record, s. */
const AHEAD_S = 60;

/**
 * While it runs, a mark may lie after the last reading: the sensor may have been silent since. Data time can also run
 * ahead of the clock, as in a rehearsal.
 * @param lastElapsedS data time of the last reading; null: there is none
 * @param nowMs wall clock, milliseconds since 1970 UTC
 * @returns data time, s
 */
export function latestMarkS(
  { open, startedAtMs }: Pick<Recording, 'open' | 'startedAtMs'>,
  lastElapsedS: number | null,
  nowMs: number,
): number {
  const lastS = lastElapsedS ?? 0;
  return open ? Math.max(lastS, (nowMs - startedAtMs) / 1000) + AHEAD_S : lastS;
}
