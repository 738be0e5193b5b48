/** Where the axes have their ticks: round numbers in the unit of choice, given back in SI. Pure. */
import { type PressureUnit, pressureFromPa, pressureToPa } from '../../protocol/units.ts';
import type { ChartTime, TimeRange } from './time-range.ts';
import type { PressureRange } from './pressure-range.ts';

const NEARLY = 1e-9;

export function pressureTicks(
  range: PressureRange,
  axis: ChartTime['axis'],
  unit: PressureUnit,
): number[] {
  const low = pressureFromPa(range.lowPa, unit);
  const high = pressureFromPa(range.highPa, unit);
  const values = axis === 'linear' ? linearSteps(low, high, 6) : logSteps(low, high);
  return values.map((value) => pressureToPa(value, unit));
}

const MINUTE_STEPS = [0.5, 1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 480, 720, 1440] as const;

/** Whole steps of minutes or hours from the axis' own zero. */
export function timeTicks(range: TimeRange, originS: number, most: number): number[] {
  const spanMinutes = (range.toS - range.fromS) / 60;
  const step = (MINUTE_STEPS.find((minutes) => spanMinutes / minutes <= most) ?? 2880) * 60;
  const ticks: number[] = [];
  const first = Math.ceil((range.fromS - originS) / step - NEARLY);
  for (let at = first; originS + at * step <= range.toS + NEARLY; at += 1) {
    ticks.push(originS + at * step);
  }
  return ticks;
}

function linearSteps(low: number, high: number, about: number): number[] {
  const rough = (high - low) / about;
  const decade = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((nice) => nice * decade >= rough * 0.999) ?? 10) * decade;
  const count = Math.floor(high / step + NEARLY) - Math.ceil(low / step - NEARLY) + 1;
  const first = Math.ceil(low / step - NEARLY);
  return Array.from({ length: Math.max(0, count) }, (_, at) => (first + at) * step);
}

/** Decades, and 2 and 5 between them where there are few. */
function logSteps(low: number, high: number): number[] {
  const first = Math.floor(Math.log10(low) + NEARLY);
  const last = Math.ceil(Math.log10(high) - NEARLY);
  const between = last - first <= 2 ? [1, 2, 5] : [1];
  const steps: number[] = [];
  for (let decade = first; decade <= last; decade += 1) {
    for (const nice of between) {
      const value = nice * 10 ** decade;
      if (value >= low * (1 - NEARLY) && value <= high * (1 + NEARLY)) steps.push(value);
    }
  }
  return steps;
}
