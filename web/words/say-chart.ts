/** The few words inside the chart. */
import { passRuleOf } from '../../protocol/pass-rules.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { pressureFromPa } from '../../protocol/units.ts';
import { boilingPointC } from '../../protocol/water.ts';
import type { Rise } from '../analysis/conclusions.ts';
import { sayDuration } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { settingDigits } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { Speech } from './speech.ts';

/** For those who can't see it: what is drawn, and of which sensors. */
export function sayChart(name: string, sensors: readonly string[], { wording }: Speech): string {
  const words = wording.chart;
  const stage = name === '' ? '' : `, ${name}`;
  return sensors.length > 1
    ? words.overTimeOf({ sensors: sensors.join(', '), stage })
    : words.overTime({ stage });
}

export function sayTargetLine(sheet: Sheet, speech: Speech): string {
  return speech.wording.chart.target({ pressure: settingDigits(sheet.targetPa, speech) });
}

export function sayDepthLine(sheet: Sheet, speech: Speech): string {
  return speech.wording.chart.valveOffAt({ pressure: settingDigits(sheet.isolateAtPa, speech) });
}

export function sayFloorLine(floorPa: number, speech: Speech): string {
  const pressure = sayNumber(pressureFromPa(floorPa, speech.units.pressure), speech, 2);
  return speech.wording.chart.headsFor({ pressure });
}

/** The sheet's own limit, which the physics go by; named after the rule only where it has the same. */
export function sayRuleLine(sheet: Sheet, speech: Speech): string {
  const { rule, sheet: ofSheet } = speech.wording.chart;
  const { endLimitPa } = passRuleOf(sheet.passRule, sheet);
  const limit = settingDigits(sheet.endLimitPa, speech);
  const isRules = endLimitPa !== null && settingDigits(endLimitPa, speech) === limit;
  return (isRules ? rule : ofSheet)({ limit, length: sayDuration(sheet.holdS) });
}

/** What the water, or the air, does: set in italics, as on a sea chart. */
export function sayRiseRemark(rise: Rise, speech: Speech): string {
  const { amounts, chart: words } = speech.wording;
  switch (rise.verdict) {
    case 'leak':
    case 'leak_and_moisture': {
      const perMinute = pressureFromPa(rise.leakPaPerS.estimate * 60, speech.units.pressure);
      const rate = amounts.perMinute({ amount: sayNumber(perMinute, speech, 2) });
      return words.steadyRise({ rate });
    }
    case 'moisture':
      return words.levellingOff;
    case 'tight_dry':
      return words.holding;
    case 'undecided':
      return words.whereItMayGo;
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
export function sayBoilingTick(pressurePa: number, speech: Speech): string {
  return pressurePa < FAINTEST_PA ? '' : sayTemperature(boilingPointC(pressurePa), speech);
}
