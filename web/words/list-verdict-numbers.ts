/** The numbers behind a verdict, as groups of rows. All intervals hold the truth nine times of ten. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { Rise } from '../analysis/conclusions.ts';
import type { Numbers, RiseNumbers } from '../analysis/numbers.ts';
import { listDisturbances } from './list-disturbances.ts';
import { listRuleNumbers } from './list-rule-numbers.ts';
import { listLeakRate, sayLeakRateConditions, sayRefrigerantLoss } from './say-leak-rate.ts';
import type { NumberGroup } from './number-row.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayPercentBetween } from './say-percent.ts';
import {
  sayPressure,
  sayPressureBetween,
  sayRateBetween,
  sayReading,
  saySettingPerMinute,
} from './say-pressure.ts';
import { saySheetValue } from './say-sheet-value.ts';
import type { Speech } from './speech.ts';
import { sayVapour } from './say-vapour.ts';
import { sayWaterConditions, sayWaterRemoved } from './say-water-removed.ts';

export function listVerdictNumbers(
  rise: Rise,
  { rise: hold, water }: Numbers,
  sheet: Sheet,
  speech: Speech,
): NumberGroup[] {
  if (hold === null) return [];
  const { notYet, water: words } = speech.wording.numbers;
  const removed = water === null ? notYet : sayWaterRemoved(water, speech);
  return [
    listHold(rise, hold, speech),
    listMakes(rise, hold, sheet, speech),
    listLeak(rise, hold, sheet, speech),
    listRuleNumbers(hold.byRule, speech),
    {
      title: words.title,
      rows: [{ name: words.onPlateau, value: removed }],
      notes: water === null ? [] : [sayWaterConditions(water, speech)].filter((one) => one !== ''),
    },
  ];
}

function listHold(rise: Rise, hold: RiseNumbers, speech: Speech): NumberGroup {
  const { notYet, hold: words } = speech.wording.numbers;
  const { atS } = rise.endOfHold;
  const at = sayMoment(rise.sinceS);
  const length = sayDuration(atS);
  return {
    title: words.title,
    rows: [
      {
        name: words.valvedOff,
        value: hold.recognisedBy === 'mark' ? words.asMarked({ at }) : words.asSeen({ at }),
      },
      {
        name: words.held,
        value: words.heldOf({ held: sayDuration(rise.heldS), whole: length }),
      },
      { name: words.stoodAtStart, value: sayReading(hold.startPa, speech) },
      { name: words.standsAt, value: sayReading(hold.standsPa, speech) },
      {
        name: rise.heldS >= atS ? words.stoodAfter({ length }) : words.willStandAfter({ length }),
        value: hold.isFitted ? sayPressureBetween(rise.endOfHold, speech) : notYet,
      },
      { name: words.scatter, value: sayNoise(hold.noisePa, speech) },
      ...listDisturbances(rise, hold.noisePa, speech),
    ],
    notes: [],
  };
}

function sayNoise(noisePa: number | null, speech: Speech): string {
  const { notYet, hold: words } = speech.wording.numbers;
  if (noisePa === null) return notYet;
  return noisePa === 0
    ? words.noScatter
    : words.scatterAbout({ amount: sayPressure(noisePa, speech) });
}

function listMakes(rise: Rise, hold: RiseNumbers, sheet: Sheet, speech: Speech): NumberGroup {
  const { notYet, makes: words } = speech.wording.numbers;
  const fitted = (text: () => string) => (hold.isFitted ? text() : notYet);
  return {
    title: words.title,
    rows: [
      { name: words.inflow, value: fitted(() => sayRateBetween(rise.leakPaPerS, speech)) },
      { name: words.countsFrom, value: saySettingPerMinute(sheet.leakLimitPaPerS, speech) },
      { name: words.moisture, value: fitted(() => sayPressureBetween(rise.moisturePa, speech)) },
      { name: words.share, value: fitted(() => sayPercentBetween(hold.moistureShare, speech)) },
      { name: words.changeover, value: fitted(() => sayChangeover(rise, speech)) },
      {
        name: words.vapour,
        value: hold.vapour === null ? words.metalMissing : sayVapour(hold.vapour, speech),
      },
    ],
    notes: [],
  };
}

function sayChangeover({ changeoverS, heldS }: Rise, speech: Speech): string {
  const words = speech.wording.numbers.makes;
  if (changeoverS === null) return words.noChangeover;
  const length = sayDuration(changeoverS);
  return changeoverS > heldS ? words.afterForeseen({ length }) : words.after({ length });
}

function listLeak(rise: Rise, hold: RiseNumbers, sheet: Sheet, speech: Speech): NumberGroup {
  const { notYet, leak: words } = speech.wording.numbers;
  const { leakRate: rate, refrigerantLoss: loss } = hold;
  const { title } = words;
  if (rate === null) {
    const missing = hold.volumeM3 === null ? words.volumeMissing : notYet;
    // The volume on the sheet would not help.
    const why = rise.reservations.includes('not_the_system') ? words.ofAPart : missing;
    return { title, rows: [{ name: words.air, value: why }], notes: [] };
  }
  const known = sheet.metalTemperatureC !== null;
  const volume = saySheetValue({ ...sheet, volumeM3: hold.volumeM3 }, 'volumeM3', speech);
  return {
    title,
    rows: listLeakRate(rate, speech),
    notes: [
      sayLeakRateConditions(rate, volume, known, speech),
      ...(loss === null ? [] : sayRefrigerantLoss(loss, speech)),
    ],
  };
}
