/** The names of the job sheet's fields, and what they are written in. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export const SHEET_NAMES: Readonly<Record<keyof Sheet, string>> = {
  site: 'Site',
  equipment: 'Equipment',
  refrigerant: 'Refrigerant',
  targetPa: 'Target',
  isolateAtPa: 'Valve off at',
  holdS: 'Hold',
  endLimitPa: 'Rule: at its end at most',
  allowedRisePa: 'Rule: risen by at most',
  passRule: 'Pass rule',
  gaugeErrorShare: 'Gauge’s error, if known',
  leakLimitPaPerS: 'Counts as a leak from',
  volumeM3: 'Volume, if known',
  metalTemperatureC: 'Metal, if known',
  coldestTemperatureC: 'Coldest point, if known',
  sensorSees: 'The sensor sees',
  pumpDisplacementM3PerS: 'Pump, free air',
  pumpUltimatePa: 'Pump, lowest pressure',
  pumpBatteryS: 'Pump’s battery lasts',
  hoseBoreM: 'Hose, bore',
  hoseLengthM: 'Hose, length',
  hoseCount: 'Hoses side by side',
  core: 'Valve cores',
};

export function sayWrongField(field: keyof Sheet): string {
  return `${SHEET_NAMES[field]}: this can’t be. Write a number that makes sense, or put back what was there.`;
}

export function sheetUnit(field: keyof Sheet, units: UnitsOfChoice): string {
  switch (field) {
    case 'targetPa':
    case 'isolateAtPa':
    case 'endLimitPa':
    case 'allowedRisePa':
    case 'pumpUltimatePa':
      return units.pressure;
    case 'leakLimitPaPerS':
      return `${units.pressure} a minute`;
    case 'holdS':
    case 'pumpBatteryS':
      return 'min';
    case 'gaugeErrorShare':
      return '%';
    case 'volumeM3':
      return 'L';
    case 'metalTemperatureC':
    case 'coldestTemperatureC':
      return units.temperature;
    case 'pumpDisplacementM3PerS':
      return 'L/min';
    case 'hoseBoreM':
      return 'mm';
    case 'hoseLengthM':
      return 'm';
    case 'hoseCount':
    case 'core':
    case 'passRule':
    case 'site':
    case 'equipment':
    case 'refrigerant':
    case 'sensorSees':
      return '';
  }
}

export const SHEET_WORDS = {
  refrigerantUnknown: 'Not entered',
  ruleHelp: 'Choosing one fills in its figures; the equipment maker’s own come first.',
  viewFilledIn:
    'Taken from where this sensor sits. Put that right under Menu, Sensors: of one at the pump, with others beside it, no entry here makes a verdict on the system.',
  more: 'More, as far as it is known',
  moreHelp:
    'Each makes the numbers behind the verdict say more. The volume turns a rise into a leak rate; the metal’s temperature tells how high water alone can stand.',
  settings:
    'What stands here at the start are settings of ours, not a standard’s. Half the target is a good depth to valve off at.',
} as const;
