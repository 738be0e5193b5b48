/** How long ago a gauge was read, from what somebody types quickly: pure. */
import { LONGEST_AGO_S } from '../../protocol/typed-in.ts';

const SECONDS: Readonly<Record<string, number>> = { s: 1, m: 60, h: 3600 };
const BACK = /^[-\u2212]\s*(\d+(?:[.,]\d+)?)\s*(?:(s|m|h)[a-z]*)?$/u;
const CLOCK = /^(\d{1,2})[:.](\d{2})(?:[:.](\d{2}))?$/u;
const DAY_S = 86_400;

/**
 * Nothing and 'now' (or what that is in the reader's language) are now; '-2', '-2 min', '-90 s' and '-1 h' go back from now; '12:40' and
 * '12:40:30' are the latest such moment on the clock of this computer.
 * @param nowMs wall clock, milliseconds since 1970 UTC
 * @param now the word for it
 * @param longestS as far back as is taken
 * @returns seconds before now, or null for what is none of these, or farther back than is taken
 */
export function agoFrom(
  text: string,
  nowMs: number,
  now: string,
  longestS = LONGEST_AGO_S,
): number | null {
  const plain = text.trim().toLowerCase();
  if (plain === '' || plain === 'now' || plain === now) return 0;
  const agoS = backFrom(plain) ?? clockFrom(plain, nowMs);
  return agoS === null || agoS > longestS ? null : agoS;
}

function backFrom(text: string): number | null {
  const found = BACK.exec(text);
  if (found === null) return null;
  return Number(found[1]?.replace(',', '.')) * (SECONDS[found[2] ?? 'm'] ?? 60);
}

function clockFrom(text: string, nowMs: number): number | null {
  const [, hours, minutes, seconds = '0'] = CLOCK.exec(text) ?? [];
  if (hours === undefined || minutes === undefined) return null;
  if (Number(hours) > 23 || Number(minutes) > 59 || Number(seconds) > 59) return null;
  const moment = new Date(nowMs).setHours(Number(hours), Number(minutes), Number(seconds), 0);
  const agoS = (nowMs - moment) / 1000;
  // Later than now on the clock: it was before midnight.
  return agoS < 0 ? agoS + DAY_S : agoS;
}
