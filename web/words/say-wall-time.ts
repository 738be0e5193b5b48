/** Wall-clock moments on paper, which has no time zone of its own: the offset is always said. */

import type { Speech } from './speech.ts';

/** The times that calendars reach, ms either side of 1970 (ECMAScript, Time Values and Time Range). */
const LATEST_MS = 8.64e15;

/** '2026-03-04 14:05:09' at a place so many minutes east of UTC. */
export function sayWallTime(ms: number, offsetMinutes: number, { wording }: Speech): string {
  const localMs = ms + offsetMinutes * 60_000;
  if (!(Math.abs(localMs) <= LATEST_MS)) return wording.amounts.unknown;
  return new Date(localMs).toISOString().slice(0, 19).replace('T', ' ');
}

/** 'UTC+02:00', 'UTC−03:30'. */
export function sayOffset(offsetMinutes: number): string {
  const whole = Math.abs(offsetMinutes);
  const two = (value: number) => String(value).padStart(2, '0');
  const sign = offsetMinutes < 0 ? '\u2212' : '+';
  return `UTC${sign}${two(Math.floor(whole / 60))}:${two(whole % 60)}`;
}
