/** A wall-clock moment as a time of day, with the date where it is not today's. */
import type { Speech } from '../words/speech.ts';

export function clockWords(ms: number, { locale }: Speech, withSeconds = false): string {
  const moment = new Date(ms);
  const time = moment.toLocaleTimeString(locale, {
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    ...(withSeconds ? { second: '2-digit' } : {}),
  });
  if (moment.toDateString() === new Date().toDateString()) return time;
  const date = moment.toLocaleDateString(locale, { day: 'numeric', month: 'short' });
  return `${date}, ${time}`;
}

/** The same in full, for what is kept: '26 Nov 2026' and '10:41'. */
export function dayAndTime(
  ms: number,
  { locale }: Speech,
): { readonly day: string; readonly time: string } {
  const moment = new Date(ms);
  return {
    day: moment.toLocaleDateString(locale, { day: 'numeric', month: 'short', year: 'numeric' }),
    time: moment.toLocaleTimeString(locale, {
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    }),
  };
}
