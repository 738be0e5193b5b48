/** A wall-clock moment as a time of day, with the date where it is not today's. */
export function clockWords(ms: number, withSeconds = false): string {
  const moment = new Date(ms);
  const time = moment.toLocaleTimeString('en-GB', {
    hour: '2-digit',
    minute: '2-digit',
    ...(withSeconds ? { second: '2-digit' } : {}),
  });
  if (moment.toDateString() === new Date().toDateString()) return time;
  const date = moment.toLocaleDateString('en-GB', { day: 'numeric', month: 'short' });
  return `${date}, ${time}`;
}

/** The same in full, for what is kept: '26 Nov 2026' and '10:41'. */
export function dayAndTime(ms: number): { readonly day: string; readonly time: string } {
  const moment = new Date(ms);
  return {
    day: moment.toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year: 'numeric' }),
    time: moment.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' }),
  };
}
