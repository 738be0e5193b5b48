/** What the job sheet's fields are written in. */
import type { Sheet } from '../../protocol/sheet.ts';
import { sayUnit } from './say-pressure.ts';
import type { Speech } from './speech.ts';

export function sayWrongField(field: keyof Sheet, { wording }: Speech): string {
  return wording.sheet.wrong({ name: wording.sheet.names[field] });
}

export function sheetUnit(field: keyof Sheet, speech: Speech): string {
  switch (field) {
    case 'targetPa':
    case 'isolateAtPa':
    case 'endLimitPa':
    case 'allowedRisePa':
    case 'pumpUltimatePa':
      return sayUnit(speech);
    case 'leakLimitPaPerS':
      return speech.wording.amounts.perMinute({ amount: sayUnit(speech) });
    case 'holdS':
    case 'pumpBatteryS':
      return 'min';
    case 'gaugeErrorShare':
      return '%';
    case 'volumeM3':
      return 'L';
    case 'metalTemperatureC':
    case 'coldestTemperatureC':
      return speech.units.temperature;
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
