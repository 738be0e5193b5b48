/** The words around a printed curve. */
import { sayUnit } from './say-pressure.ts';
import type { Speech } from './speech.ts';

export function sayPressureAxis(axis: 'log' | 'linear', speech: Speech): string {
  const unit = sayUnit(speech);
  return axis === 'log' ? speech.wording.figure.logarithmic({ unit }) : unit;
}

/** What the time axis counts from. */
export function sayTimeAxis(axis: 'log' | 'linear', originS: number, { wording }: Speech): string {
  if (axis === 'linear') return wording.figure.sinceValveOff;
  return originS === 0 ? wording.figure.sinceRecording : wording.figure.sincePullDown;
}
