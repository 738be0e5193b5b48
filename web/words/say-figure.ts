/** The words around a printed curve. */
import type { PressureUnit } from '../../protocol/units.ts';

export const FIGURE_WORDS = {
  measured: 'measured',
  fit: 'fitted, with its 80 % band',
  over: 'above the sensor’s range',
  under: 'below the sensor’s range',
  gap: 'no readings',
  late: 'came in late',
  fault: 'sensor fault',
  warming_up: 'sensor warming up',
} as const;

export function sayPressureAxis(axis: 'log' | 'linear', unit: PressureUnit): string {
  return axis === 'log' ? `${unit}, logarithmic` : unit;
}

/** What the time axis counts from. */
export function sayTimeAxis(axis: 'log' | 'linear', originS: number): string {
  if (axis === 'linear') return 'since valve-off';
  return originS === 0 ? 'since the recording began' : 'since the pull-down began';
}
