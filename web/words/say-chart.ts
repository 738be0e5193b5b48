/** The few words inside the chart. */
import { passRuleOf } from '../../protocol/pass-rules.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { type PressureUnit, pressureFromPa, type TemperatureUnit } from '../../protocol/units.ts';
import { boilingPointC } from '../../protocol/water.ts';
import type { Rise } from '../analysis/conclusions.ts';
import { sayDuration } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { settingDigits } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';

export const CHART_WORDS = {
  expected: 'expected, dry and tight',
  boilsAt: 'water boils at',
  rehearsal: 'Rehearsal',
  changeover: 'boil-off gives way to a steady rise',
  isolated: 'valve off',
} as const;

/** For those who can't see it: what is drawn, and of which sensors. */
export function sayChart(stage: string, sensors: readonly string[]): string {
  const of = sensors.length > 1 ? ` of ${sensors.join(', ')}` : '';
  return `Pressure over time${of}${stage === '' ? '' : `, ${stage}`}.`;
}

export function sayTargetLine(sheet: Sheet, unit: PressureUnit): string {
  return `target ${settingDigits(sheet.targetPa, unit)}`;
}

export function sayDepthLine(sheet: Sheet, unit: PressureUnit): string {
  return `valve off at ${settingDigits(sheet.isolateAtPa, unit)}`;
}

export function sayFloorLine(floorPa: number, unit: PressureUnit): string {
  return `heads for about ${sayNumber(pressureFromPa(floorPa, unit), 2)}`;
}

/** The sheet's own limit, which the physics go by; named after the rule only where it has the same. */
export function sayRuleLine(sheet: Sheet, unit: PressureUnit): string {
  const { endLimitPa } = passRuleOf(sheet.passRule, sheet);
  const limit = settingDigits(sheet.endLimitPa, unit);
  const isRules = endLimitPa !== null && settingDigits(endLimitPa, unit) === limit;
  return `${isRules ? 'rule' : 'sheet'}: ${limit} after ${sayDuration(sheet.holdS)}`;
}

/** What the water, or the air, does: set in italics, as on a sea chart. */
export function sayRiseRemark(rise: Rise, unit: PressureUnit): string {
  switch (rise.verdict) {
    case 'leak':
    case 'leak_and_moisture':
      return `steady rise, ${sayNumber(pressureFromPa(rise.leakPaPerS.estimate * 60, unit), 2)} a minute`;
    case 'moisture':
      return 'levelling off';
    case 'tight_dry':
      return 'holding';
    case 'undecided':
      return 'where it may go';
  }
}

/** At the time axis: '−2 min', '0 min', '1 h 30 min'. */
export function sayTimeTick(seconds: number): string {
  const sign = seconds < 0 ? '\u2212' : '';
  const magnitude = Math.abs(seconds);
  return magnitude === 0 ? '0 min' : `${sign}${sayDuration(magnitude)}`;
}

/** The least that the boiling temperature is given for: far below what sensors of the trade resolve. */
const FAINTEST_PA = 0.01;

/** At the pressure axis: where water boils. */
export function sayBoilingTick(pressurePa: number, unit: TemperatureUnit): string {
  return pressurePa < FAINTEST_PA ? '' : sayTemperature(boilingPointC(pressurePa), unit);
}
