/** What the job sheet's fields are written in. */
import type { PlainField } from '../../protocol/sheet.ts';
import { sayUnit } from './say-pressure.ts';
import { sayMistakable } from './say-typed-in.ts';
import type { Speech } from './speech.ts';

/** @param mistaken what was typed, where it might be read as two numbers */
export function sayWrongField(field: PlainField, mistaken: string | null, speech: Speech): string {
  const { names, wrong, wrongFor } = speech.wording.sheet;
  const name = names[field];
  return mistaken === null
    ? wrong({ name })
    : wrongFor({ name, why: sayMistakable(mistaken, speech) });
}

export function sheetUnit(field: PlainField, speech: Speech): string {
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
    case 'ambientTemperatureC':
      return speech.units.temperature;
    case 'pumpDisplacementM3PerS':
      return 'L/min';
    case 'hoseBoreM':
      return 'mm';
    case 'hoseLengthM':
    case 'altitudeM':
      return 'm';
    case 'stubVolumeM3':
      return 'mL';
    case 'hoseCount':
    case 'seenSection':
    case 'core':
    case 'pumpBallast':
    case 'pumpOilChangedOn':
    case 'passRule':
    case 'site':
    case 'equipment':
    case 'refrigerant':
    case 'sensorSees':
    case 'serial':
    case 'oil':
    case 'systemHistory':
    case 'coldestPlace':
    case 'people':
    case 'valveOrder':
      return '';
  }
}
