/** What stands in a field of the job sheet, with its unit. */
import type { Sheet } from '../../protocol/sheet.ts';
import { sayDuration } from './say-duration.ts';
import { PASS_RULE_NAMES } from './say-pass-rule.ts';
import { saySetting } from './say-pressure.ts';
import { CORE_NAMES } from './say-rig.ts';
import { SENSOR_VIEW_NAMES } from './say-sensor-view.ts';
import { sheetUnit } from './say-sheet.ts';
import { sayTemperature } from './say-temperature.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

const NOT_ENTERED = 'not entered';

export function saySheetValue(sheet: Sheet, field: keyof Sheet, units: UnitsOfChoice): string {
  const set = (value: number | null, perUnit: number) =>
    value === null ? NOT_ENTERED : `${asSet(value * perUnit)} ${sheetUnit(field, units)}`.trim();
  switch (field) {
    case 'site':
    case 'equipment':
      return sheet[field].trim() === '' ? NOT_ENTERED : sheet[field];
    case 'refrigerant':
      return sheet.refrigerant === 'unknown' ? NOT_ENTERED : sheet.refrigerant;
    case 'targetPa':
    case 'isolateAtPa':
    case 'endLimitPa':
    case 'allowedRisePa':
    case 'pumpUltimatePa': {
      const pressurePa = sheet[field];
      return pressurePa === null ? NOT_ENTERED : saySetting(pressurePa, units.pressure);
    }
    case 'passRule':
      return PASS_RULE_NAMES[sheet.passRule];
    case 'gaugeErrorShare':
      return set(sheet.gaugeErrorShare, 100);
    case 'leakLimitPaPerS':
      return `${saySetting(sheet.leakLimitPaPerS * 60, units.pressure)} a minute`;
    case 'metalTemperatureC':
    case 'coldestTemperatureC': {
      const temperatureC = sheet[field];
      return temperatureC === null ? NOT_ENTERED : sayTemperature(temperatureC, units.temperature);
    }
    case 'holdS':
      return sayDuration(sheet.holdS);
    case 'pumpBatteryS':
      return sheet.pumpBatteryS === null ? NOT_ENTERED : sayDuration(sheet.pumpBatteryS);
    case 'volumeM3':
      return set(sheet.volumeM3, 1000);
    case 'pumpDisplacementM3PerS':
      return set(sheet.pumpDisplacementM3PerS, 60_000);
    case 'hoseBoreM':
      return set(sheet.hoseBoreM, 1000);
    case 'hoseLengthM':
      return set(sheet.hoseLengthM, 1);
    case 'hoseCount':
      return set(sheet.hoseCount, 1);
    case 'sensorSees':
      return SENSOR_VIEW_NAMES[sheet.sensorSees];
    case 'core':
      return CORE_NAMES[sheet.core];
  }
}

/** As it was set: '12', and not '12.0' as if it had been measured. */
function asSet(value: number): number {
  return Number(value.toPrecision(6));
}
