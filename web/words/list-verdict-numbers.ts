/** The numbers behind a verdict, as groups of rows. All intervals hold the truth nine times of ten. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { Rise } from '../analysis/conclusions.ts';
import type { Numbers, RiseNumbers } from '../analysis/numbers.ts';
import { listDisturbances } from './list-disturbances.ts';
import { listRuleNumbers } from './list-rule-numbers.ts';
import { listLeakRate, sayLeakRateConditions, sayRefrigerantLoss } from './say-leak-rate.ts';
import type { NumberGroup, NumberRow } from './number-row.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayPercentBetween } from './say-percent.ts';
import {
  sayPressure,
  sayPressureBetween,
  sayRateBetween,
  sayReading,
  saySetting,
} from './say-pressure.ts';
import { saySheetValue } from './say-sheet-value.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';
import { sayVapour } from './say-vapour.ts';
import { sayWaterConditions, sayWaterRemoved } from './say-water-removed.ts';

export const INTERVALS = 'Intervals hold the truth nine times of ten.';

const NOT_YET = 'not known yet: too few readings';
const VOLUME_MISSING = 'not known: volume missing → enter it in the job sheet';
const METAL_MISSING = 'not known: metal’s temperature missing → enter it in the job sheet';

export function listVerdictNumbers(
  rise: Rise,
  { rise: hold, water }: Numbers,
  sheet: Sheet,
  units: UnitsOfChoice,
): NumberGroup[] {
  if (hold === null) return [];
  return [
    listHold(rise, hold, units),
    listMakes(rise, hold, sheet, units),
    listLeak(hold, sheet, units),
    listRuleNumbers(hold.byRule, units),
    {
      title: 'Water pumped away',
      rows: [{ name: 'On the plateau', value: water === null ? NOT_YET : sayWaterRemoved(water) }],
      notes: water === null ? [] : [sayWaterConditions(water, units)].filter((one) => one !== ''),
    },
  ];
}

function listHold(rise: Rise, hold: RiseNumbers, units: UnitsOfChoice): NumberGroup {
  const unit = units.pressure;
  const { atS } = rise.endOfHold;
  const seen = hold.recognisedBy === 'mark' ? 'as marked' : 'as the curve shows';
  return {
    title: 'The hold',
    rows: [
      { name: 'Valved off', value: `${sayMoment(rise.sinceS)} into the recording, ${seen}` },
      { name: 'Held', value: `${sayDuration(rise.heldS)} of ${sayDuration(atS)}` },
      { name: 'Stood at valve-off', value: sayReading(hold.startPa, unit) },
      { name: 'Stands at', value: sayReading(hold.standsPa, unit) },
      {
        name: `${rise.heldS >= atS ? 'Stood' : 'Will stand'} after ${sayDuration(atS)}`,
        value: hold.isFitted ? sayPressureBetween(rise.endOfHold, unit) : NOT_YET,
      },
      { name: 'Scatter of the readings', value: sayNoise(hold.noisePa, units) },
      ...listDisturbances(rise, hold.noisePa, units),
    ],
    notes: [],
  };
}

function sayNoise(noisePa: number | null, units: UnitsOfChoice): string {
  if (noisePa === null) return NOT_YET;
  return noisePa === 0
    ? 'none to be seen'
    : `about ${sayPressure(noisePa, units.pressure)} from second to second`;
}

function listMakes(rise: Rise, hold: RiseNumbers, sheet: Sheet, units: UnitsOfChoice): NumberGroup {
  const unit = units.pressure;
  const fitted = (text: () => string) => (hold.isFitted ? text() : NOT_YET);
  const vapour: NumberRow[] =
    hold.vapour === null
      ? [{ name: 'Vapour pressure of water', value: METAL_MISSING }]
      : [{ name: 'Vapour pressure of water', value: sayVapour(hold.vapour, units) }];
  return {
    title: 'What makes it rise',
    rows: [
      { name: 'Steady inflow', value: fitted(() => sayRateBetween(rise.leakPaPerS, unit)) },
      {
        name: 'Counts as a leak from',
        value: `${saySetting(sheet.leakLimitPaPerS * 60, unit)} a minute`,
      },
      {
        name: 'From moisture, or gas from oil, by the end of the hold',
        value: fitted(() => sayPressureBetween(rise.moisturePa, unit)),
      },
      {
        name: 'Moisture’s part of the rise',
        value: fitted(() => sayPercentBetween(hold.moistureShare)),
      },
      { name: 'Boil-off gives way to a steady rise', value: fitted(() => sayChangeover(rise)) },
      ...vapour,
    ],
    notes: [],
  };
}

function sayChangeover({ changeoverS, heldS }: Rise): string {
  if (changeoverS === null) return 'no such moment';
  const after = `after ${sayDuration(changeoverS)}`;
  return changeoverS > heldS ? `${after}, as foreseen` : after;
}

function listLeak(hold: RiseNumbers, sheet: Sheet, units: UnitsOfChoice): NumberGroup {
  const { leakRate: rate, refrigerantLoss: loss } = hold;
  const title = 'Leak rate';
  if (rate === null) {
    const why = sheet.volumeM3 === null ? VOLUME_MISSING : NOT_YET;
    return { title, rows: [{ name: 'Inflow of air', value: why }], notes: [] };
  }
  const known = sheet.metalTemperatureC !== null;
  const volume = saySheetValue(sheet, 'volumeM3', units);
  return {
    title,
    rows: listLeakRate(rate),
    notes: [
      sayLeakRateConditions(rate, volume, known, units),
      ...(loss === null ? [] : sayRefrigerantLoss(loss)),
    ],
  };
}
