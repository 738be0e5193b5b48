/** The top line. */
export const HEADER_WORDS = {
  rehearsal: 'Rehearsal',
  sheet: 'Job sheet',
  menu: 'Menu',
} as const;

export function sayBattery(percent: number, low: boolean): string {
  return `${Math.round(percent)}\u00a0%${low ? ', low' : ''}`;
}
