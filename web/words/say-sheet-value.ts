/** What stands in a field of the job sheet, with its unit. */
import type { PlainField, Sheet } from '../../protocol/sheet.ts';
import { isRuleUnentered } from '../analysis/verdict/hold-by-rule.ts';
import { sayDuration } from './say-duration.ts';
import { sayExactly } from './say-number.ts';
import { sayNitrogenGauge, sayNitrogenReadings } from './say-nitrogen.ts';
import { sayJoin, sayRows, saySection, sayTube, sayVessel } from './say-rig-facts.ts';
import { saySetting, saySettingPerMinute } from './say-pressure.ts';
import { sheetUnit } from './say-sheet.ts';
import { sayTemperature } from './say-temperature.ts';
import { sayTriplePlan } from './say-cycles.ts';
import { sayTickedSteps } from './say-steps.ts';
import type { Speech } from './speech.ts';

export function saySheetValue(sheet: Sheet, field: keyof Sheet, speech: Speech): string {
  if (field === 'nitrogenReadings') return sayNitrogenReadings(sheet.nitrogenReadings, speech);
  if (field === 'nitrogenGauge') return sayNitrogenGauge(sheet.nitrogenGauge, speech);
  if (field === 'triplePlan') return sayTriplePlan(sheet.triplePlan, speech);
  if (field === 'tickedSteps') return sayTickedSteps(sheet.tickedSteps, speech);
  if (field === 'tubes') return sayRows(sheet.tubes, sayTube, speech);
  if (field === 'vessels') return sayRows(sheet.vessels, sayVessel, speech);
  if (field === 'sections') return sayRows(sheet.sections, saySection, speech);
  if (field === 'joins') return sayRows(sheet.joins, sayJoin, speech);
  return sayPlainValue(sheet, field, speech);
}

function sayPlainValue(sheet: Sheet, field: PlainField, speech: Speech): string {
  const { passRules, sheet: words } = speech.wording;
  const set = (value: number | null, perUnit: number) =>
    value === null
      ? words.notEntered
      : `${asSet(value * perUnit, speech)} ${sheetUnit(field, speech)}`.trim();
  switch (field) {
    case 'site':
    case 'equipment':
    case 'seenSection':
    case 'serial':
    case 'coldestPlace':
    case 'people':
    case 'valveOrder':
    case 'pumpOilChangedOn':
      return sheet[field].trim() === '' ? words.notEntered : sheet[field];
    case 'refrigerant':
      return sheet.refrigerant === 'unknown' ? words.notEntered : sheet.refrigerant;
    case 'targetPa':
    case 'isolateAtPa':
    case 'endLimitPa':
    case 'allowedRisePa':
    case 'pumpUltimatePa': {
      const pressurePa = sheet[field];
      return pressurePa === null ? words.notEntered : saySetting(pressurePa, speech);
    }
    case 'passRule':
      return isRuleUnentered(sheet) ? passRules.unentered : passRules.names[sheet.passRule];
    case 'gaugeErrorShare':
      return set(sheet.gaugeErrorShare, 100);
    case 'leakLimitPaPerS':
      return saySettingPerMinute(sheet.leakLimitPaPerS, speech);
    case 'metalTemperatureC':
    case 'coldestTemperatureC':
    case 'ambientTemperatureC': {
      const temperatureC = sheet[field];
      return temperatureC === null ? words.notEntered : sayTemperature(temperatureC, speech);
    }
    case 'holdS':
      return sayDuration(sheet.holdS);
    case 'pumpBatteryS':
      return sheet.pumpBatteryS === null ? words.notEntered : sayDuration(sheet.pumpBatteryS);
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
    case 'stubVolumeM3':
      return set(sheet.stubVolumeM3, 1e6);
    case 'sensorSees':
      return words.views[sheet.sensorSees];
    case 'core':
      return words.cores[sheet.core];
    case 'altitudeM':
      return set(sheet.altitudeM, 1);
    case 'oil':
      return words.oils[sheet.oil];
    case 'systemHistory':
      return words.histories[sheet.systemHistory];
    case 'pumpBallast':
      return words.ballasts[sheet.pumpBallast];
  }
}

/** As it was set: '12', and not '12.0' as if it had been measured. */
function asSet(value: number, speech: Speech): string {
  return sayExactly(Number(value.toPrecision(6)), speech);
}
