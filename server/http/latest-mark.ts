/** How late a mark may be: nobody marks what has not happened yet. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';

/** By so much another device's clock, or what is on its way to the page, may be ahead of the record, s. */
const AHEAD_S = 3600;
/** The same where a job begins: no job may begin where nothing was measured yet. */
const JOB_AHEAD_S = 60;

/**
 * While it runs, a mark may lie after the last reading: the sensor may have been silent since. Data time can also run
 * ahead of the clock, as in a rehearsal.
 * @param kind of the mark
 * @param lastElapsedS data time of the last reading; null: there is none
 * @param nowMs wall clock, milliseconds since 1970 UTC
 * @returns data time, s
 */
export function latestMarkS(
  { open, startedAtMs }: Pick<Recording, 'open' | 'startedAtMs'>,
  kind: MarkKind,
  lastElapsedS: number | null,
  nowMs: number,
): number {
  const lastS = lastElapsedS ?? 0;
  if (!open) return lastS;
  const aheadS = kind === 'job_begun' ? JOB_AHEAD_S : AHEAD_S;
  return Math.max(lastS, (nowMs - startedAtMs) / 1000) + aheadS;
}
