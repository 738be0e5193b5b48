/** The few words inside the chart. */
import type { Sheet } from '../../protocol/sheet.ts';
import { type PressureUnit, pressureFromPa } from '../../protocol/units.ts';
import type { Rise } from '../analysis/conclusions.ts';
import { sayDuration } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { settingDigits } from './say-pressure.ts';

export const CHART_WORDS = {
  boilsAt: 'water boils at',
  rehearsal: 'Rehearsal',
  changeover: 'boil-off gives way to a steady rise',
  isolated: 'valve off',
} as const;

export function sayTargetLine(sheet: Sheet, unit: PressureUnit): string {
  return `target ${settingDigits(sheet.targetPa, unit)}`;
}

export function sayDepthLine(sheet: Sheet, unit: PressureUnit): string {
  return `valve off at ${settingDigits(sheet.isolateAtPa, unit)}`;
}

export function sayRuleLine(sheet: Sheet, unit: PressureUnit): string {
  return `rule: ${settingDigits(sheet.endLimitPa, unit)} after ${sayDuration(sheet.holdS)}`;
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
