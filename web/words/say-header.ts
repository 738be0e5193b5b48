/** The top line. */
import type { Speech } from './speech.ts';

export function sayBattery(percent: number, low: boolean, { wording }: Speech): string {
  const shown = `${Math.round(percent)}\u00a0%`;
  return low ? wording.header.batteryLow({ percent: shown }) : shown;
}
