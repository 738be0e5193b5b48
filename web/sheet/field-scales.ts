/** How the figures of the job sheet are written: in which unit, and which others may stand beside them. Pure. */
import type { PlainField } from '../../protocol/sheet.ts';
import {
  type PressureUnit,
  pressureFromPa,
  pressureToPa,
  temperatureFromC,
  temperatureToC,
} from '../../protocol/units.ts';
import { LENGTHS_M, measureFrom, VOLUMES_M3 } from '../typed-in/typed-measure.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';
import { displacementFrom } from './displacement.ts';

const LITRES_PER_M3 = 1000;
const ML_PER_M3 = 1e6;
const LITRES_PER_MIN_PER_M3_PER_S = LITRES_PER_M3 * 60;
const MM_PER_M = 1000;
const PERCENT = 100;

/** How a field's number is written: typed value → SI, and back. */
export interface Scale {
  readonly toSi: (value: number) => number;
  readonly fromSi: (value: number) => number;
  /** Where it is a pressure: the unit in which it is typed. */
  readonly unit?: PressureUnit;
  /** Where a unit may be written as well: the text in SI. */
  readonly fromText?: (text: string) => number | null;
}

export function scales(units: UnitsOfChoice): Partial<Record<PlainField, Scale>> {
  const pressure: Scale = {
    toSi: (value) => pressureToPa(value, units.pressure),
    fromSi: (value) => pressureFromPa(value, units.pressure),
    unit: units.pressure,
  };
  const temperature: Scale = {
    toSi: (value) => temperatureToC(value, units.temperature),
    fromSi: (value) => temperatureFromC(value, units.temperature),
  };
  return {
    targetPa: pressure,
    isolateAtPa: pressure,
    endLimitPa: pressure,
    allowedRisePa: pressure,
    // A minute is what people count a leak by.
    leakLimitPaPerS: {
      toSi: (value) => pressure.toSi(value) / 60,
      fromSi: (value) => pressure.fromSi(value * 60),
      unit: units.pressure,
    },
    gaugeErrorShare: times(PERCENT),
    holdS: { toSi: (value) => value * 60, fromSi: (value) => value / 60 },
    volumeM3: { ...times(LITRES_PER_M3), fromText: volumeText(LITRES_PER_M3) },
    metalTemperatureC: temperature,
    coldestTemperatureC: temperature,
    pumpDisplacementM3PerS: { ...times(LITRES_PER_MIN_PER_M3_PER_S), fromText: displacementFrom },
    pumpUltimatePa: pressure,
    pumpBatteryS: { toSi: (value) => value * 60, fromSi: (value) => value / 60 },
    hoseBoreM: { ...times(MM_PER_M), fromText: lengthText(MM_PER_M) },
    hoseLengthM: { ...times(1), fromText: lengthText(1) },
    hoseCount: times(1),
    stubVolumeM3: { ...times(ML_PER_M3), fromText: volumeText(ML_PER_M3) },
    altitudeM: { ...times(1), fromText: lengthText(1) },
    ambientTemperatureC: temperature,
  };
}

/** As on a tape or a fitting, where somebody writes the unit. */
function lengthText(perSi: number): NonNullable<Scale['fromText']> {
  return (text) => measureFrom(text, LENGTHS_M, 1 / perSi);
}

function volumeText(perSi: number): NonNullable<Scale['fromText']> {
  return (text) => measureFrom(text, VOLUMES_M3, 1 / perSi);
}

/** So many of what people type make one of SI. */
function times(perSi: number): Scale {
  return { toSi: (value) => value / perSi, fromSi: (value) => value * perSi };
}
