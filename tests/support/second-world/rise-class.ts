/** The five classes that rises are told by, from the true curve alone. */
import { paFromMicron } from '../../../protocol/units.ts';

export const RISE_CLASSES = [
  'tight_dry',
  'moisture',
  'leak',
  'leak_and_moisture',
  'borderline',
] as const;
export type RiseClass = (typeof RISE_CLASSES)[number];

/** The hold that the classes are defined by, s. */
export const CLASS_HOLD_S = 900;
const MICRON_PER_MIN = paFromMicron(1) / 60;

/**
 * @param leakPaPerS steady inflow
 * @param rosePa over the first quarter of an hour, without steps of trapped air
 */
export function riseClass(leakPaPerS: number, rosePa: number): RiseClass {
  const share = (leakPaPerS * CLASS_HOLD_S) / Math.max(rosePa, 1e-9);
  if (rosePa < paFromMicron(150) && leakPaPerS <= 3 * MICRON_PER_MIN) return 'tight_dry';
  const leaks = leakPaPerS >= 10 * MICRON_PER_MIN;
  if (leaks && share >= 0.8) return 'leak';
  if (rosePa >= paFromMicron(250)) {
    if (share <= 0.2) return 'moisture';
    // Both substantial: a leak that would be called one by itself, and a fifth or more of the rise each.
    if (leaks) return 'leak_and_moisture';
  }
  return 'borderline';
}
