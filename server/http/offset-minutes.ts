/** The bridge runs where the work is done, so its own clock's zone is the site's. @returns minutes east of UTC */
export function offsetMinutesAt(ms: number): number {
  const offset = new Date(ms).getTimezoneOffset();
  return Number.isNaN(offset) ? 0 : -offset;
}
