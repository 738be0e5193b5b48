/** Which pressures the chart shows: pure. */
import type { Sheet } from '../../protocol/sheet.ts';
import {
  type PressureUnit,
  pressureFromPa,
  pressureToPa,
  STANDARD_ATMOSPHERE_PA,
} from '../../protocol/units.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { ChartTime } from './time-range.ts';

export interface PressureRange {
  readonly lowPa: number;
  readonly highPa: number;
}

/** @param drawnPa what is drawn of the measured curve, nulls being gaps */
export function pressureRange(
  time: ChartTime,
  drawnPa: readonly (number | null)[],
  conclusions: Conclusions | null,
  sheet: Sheet,
  unit: PressureUnit,
): PressureRange {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = 0;
  for (const pressurePa of drawnPa) {
    if (pressurePa === null) continue;
    lowest = Math.min(lowest, pressurePa);
    highest = Math.max(highest, pressurePa);
  }
  if (time.axis === 'linear') {
    const coming = conclusions?.rise?.curve.at(-1)?.highPa ?? 0;
    const own = Math.max(sheet.endLimitPa * 1.15, highest * 1.08);
    // An early fit may run off to anywhere; the measured curve stays readable.
    const top = Math.max(own, Math.min(coming * 1.05, own * 2.5));
    return { lowPa: 0, highPa: niceUp(top, unit) };
  }
  const low = Math.min(sheet.isolateAtPa * 0.6, lowest * 0.8);
  // Nothing measured yet, as over range: the axis begins where the air does.
  const high = Math.max(highest === 0 ? STANDARD_ATMOSPHERE_PA : highest, sheet.targetPa * 20);
  return { lowPa: niceDown(low, unit), highPa: decadeUp(high, unit) };
}

const NICE = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10] as const;

function niceUp(pressurePa: number, unit: PressureUnit): number {
  const value = pressureFromPa(pressurePa, unit);
  const decade = 10 ** Math.floor(Math.log10(value));
  const step = NICE.find((nice) => nice * decade >= value * 0.999) ?? 10;
  return pressureToPa(step * decade, unit);
}

function niceDown(pressurePa: number, unit: PressureUnit): number {
  const value = pressureFromPa(pressurePa, unit);
  const decade = 10 ** Math.floor(Math.log10(value));
  const step = [5, 2, 1].find((nice) => nice * decade <= value * 1.001) ?? 1;
  return pressureToPa(step * decade, unit);
}

function decadeUp(pressurePa: number, unit: PressureUnit): number {
  const exponent = Math.ceil(Math.log10(pressureFromPa(pressurePa, unit)) - 1e-9);
  return pressureToPa(10 ** exponent, unit);
}
