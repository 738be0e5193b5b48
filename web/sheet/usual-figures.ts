/**
 * What is usual in the trade of figures that have a unit: whoever types one far from it has mostly meant another unit,
 * and is asked. Bounds of ours, wide on purpose; what lies beyond is taken once somebody says that it is so.
 */
import type { PlainField, SheetEntry } from '../../protocol/sheet.ts';
import { paFromMicron } from '../../protocol/units.ts';

interface Range {
  readonly low: number;
  readonly high: number;
}

const L_PER_MIN = 1e-3 / 60;
const METAL_C: Range = { low: -45, high: 60 };

const USUAL: Partial<Record<PlainField, Range>> = {
  volumeM3: { low: 0.1e-3, high: 2 },
  metalTemperatureC: METAL_C,
  coldestTemperatureC: METAL_C,
  ambientTemperatureC: METAL_C,
  pumpDisplacementM3PerS: { low: 15 * L_PER_MIN, high: 1000 * L_PER_MIN },
  pumpUltimatePa: { low: paFromMicron(1), high: paFromMicron(2000) },
  pumpBatteryS: { low: 5 * 60, high: 10 * 3600 },
  hoseBoreM: { low: 0.003, high: 0.04 },
  hoseLengthM: { low: 0.2, high: 20 },
};

export interface UnusualField {
  readonly field: PlainField;
  readonly value: number;
  readonly usual: Range;
}

/** The first of what is entered that is far from usual; null: nothing is. */
export function unusualIn(fields: SheetEntry['fields']): UnusualField | null {
  for (const [field, usual] of Object.entries(USUAL)) {
    if (!isUsualField(field)) continue;
    const value = fields[field];
    if (typeof value !== 'number' || isWithin(value, usual)) continue;
    return { field, value, usual };
  }
  return null;
}

export function isUsualDisplacement(m3PerS: number): boolean {
  const { pumpDisplacementM3PerS: usual } = USUAL;
  return usual === undefined || isWithin(m3PerS, usual);
}

function isWithin(value: number, { low, high }: Range): boolean {
  // What is typed as a bound is one, whatever its unit makes of the last digit.
  const slack = (high - low) * 1e-9;
  return value >= low - slack && value <= high + slack;
}

function isUsualField(field: string): field is PlainField {
  return field in USUAL;
}
