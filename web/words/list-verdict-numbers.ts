/** The numbers behind a verdict, as rows of a table. All intervals hold the truth nine times of ten. */
import type { Rise } from '../analysis/conclusions.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { PA_M3_PER_MBAR_L } from '../analysis/leak-rate.ts';
import { sayDuration } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { sayPressureEstimate, sayRateEstimate, saySetting } from './say-pressure.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export interface NumberRow {
  readonly name: string;
  readonly value: string;
}

export function listVerdictNumbers(rise: Rise, sheet: Sheet, units: UnitsOfChoice): NumberRow[] {
  const unit = units.pressure;
  return [
    { name: 'Held', value: `${sayDuration(rise.heldS)} of ${sayDuration(rise.endOfHold.atS)}` },
    { name: 'Steady inflow', value: sayRateEstimate(rise.leakPaPerS, unit) },
    {
      name: 'Counts as a leak from',
      value: `${saySetting(sheet.leakLimitPaPerS * 60, unit)} a minute`,
    },
    { name: 'From moisture, or gas from oil', value: sayPressureEstimate(rise.moisturePa, unit) },
    {
      name: 'Boil-off gives way to a steady rise',
      value:
        rise.changeoverS === null ? 'no such moment' : `after ${sayDuration(rise.changeoverS)}`,
    },
    {
      name: `After ${sayDuration(rise.endOfHold.atS)}`,
      value: sayPressureEstimate(rise.endOfHold, unit),
    },
    { name: 'Pass rule: at most', value: saySetting(sheet.endLimitPa, unit) },
    { name: 'Pass rule: risen by at most', value: saySetting(sheet.allowedRisePa, unit) },
    { name: 'Inflow of air', value: sayLeakRate(rise) },
  ];
}

function sayLeakRate(rise: Rise): string {
  const rate = rise.leakRatePaM3PerS;
  if (rate === null) return 'needs the volume, on the job sheet';
  const digits = (value: number) => sayNumber(value / PA_M3_PER_MBAR_L, 2);
  return `${digits(rate.estimate)} (${digits(rate.low)} to ${digits(rate.high)}) mbar·L/s`;
}
