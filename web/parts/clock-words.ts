/** A wall-clock moment as a time of day, with the date where it is not today's. */
import type { Speech } from '../words/speech.ts';

const PARTS = {
  time: { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' },
  timeWithSeconds: { hour: '2-digit', minute: '2-digit', second: '2-digit', hourCycle: 'h23' },
  day: { day: 'numeric', month: 'short' },
  dayWithYear: { day: 'numeric', month: 'short', year: 'numeric' },
} as const satisfies Readonly<Record<string, Intl.DateTimeFormatOptions>>;

type Part = keyof typeof PARTS;

export function clockWords(ms: number, { locale }: Speech, withSeconds = false): string {
  const moment = new Date(ms);
  const time = said(moment, locale, withSeconds ? 'timeWithSeconds' : 'time');
  if (moment.toDateString() === new Date().toDateString()) return time;
  return `${said(moment, locale, 'day')}, ${time}`;
}

/** The same in full, for what is kept: '26 Nov 2026' and '10:41'. */
export function dayAndTime(
  ms: number,
  { locale }: Speech,
): { readonly day: string; readonly time: string } {
  const moment = new Date(ms);
  return { day: said(moment, locale, 'dayWithYear'), time: said(moment, locale, 'time') };
}

/** Making one takes far longer than using it, and a page says the time several times a reading. */
const formats = new Map<string, Intl.DateTimeFormat>();

function said(moment: Date, locale: string, part: Part): string {
  // A format keeps the zone in which it was made: a laptop that crosses a border gets new ones.
  const key = `${locale} ${part} ${moment.getTimezoneOffset()}`;
  let format = formats.get(key);
  if (format === undefined) {
    format = new Intl.DateTimeFormat(locale, PARTS[part]);
    formats.set(key, format);
  }
  return format.format(moment);
}
