/** What may be entered on the job sheet: what a job can have, and no number that only a wrong unit gives. */
import { describe, expect, test } from 'vitest';
import {
  DEFAULT_SHEET,
  newSheetEntrySchema,
  type Sheet,
  sheetFromEntries,
  sheetSchema,
} from '../../../protocol/sheet.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import { expectExactShape, expectWords } from '../../support/exact-shape.ts';

const takes = (field: string, value: unknown) =>
  newSheetEntrySchema.safeParse({ elapsedS: 0, fields: { [field]: value } });

const RULES = [
  ...['own', 'ufgs-15182', 'ufgs-15741n', 'au-nz-deep', 'au-nz-triple', 'canada-300'],
  ...['ashrae-guideline-3', 'ashrae-15-2', 'en-378-2'],
];

describe('numbers', () => {
  test.each([
    // Two atmospheres are beyond any vacuum sensor.
    ['targetPa', [0.1, 200_000], [0, -1, 200_001, null]],
    ['isolateAtPa', [0.1, 200_000], [0, 200_001]],
    ['endLimitPa', [0.1, 200_000], [0, 200_001]],
    ['allowedRisePa', [0.1, 200_000], [0, 200_001]],
    // A minute to a day.
    ['holdS', [60, 86_400], [59, 86_401]],
    ['gaugeErrorShare', [0, 0.9, null], [-0.01, 0.91]],
    ['leakLimitPaPerS', [0.001, 1000], [0, 1001]],
    ['volumeM3', [1e-5, 100, null], [0, 101]],
    ['metalTemperatureC', [-80, 120, null], [-81, 121]],
    ['coldestTemperatureC', [-80, 120, null], [-81, 121]],
    ['ambientTemperatureC', [-80, 120, null], [-81, 121]],
    ['pumpDisplacementM3PerS', [1e-4, 1, null], [0, 1.1]],
    ['pumpUltimatePa', [0.1, 10_000, null], [0, 10_001]],
    ['pumpBatteryS', [1, 86_400, null], [0, 86_401]],
    ['hoseBoreM', [0.001, 0.1, null], [0.0009, 0.11]],
    ['hoseLengthM', [0.05, 100, null], [0.04, 101]],
    ['hoseCount', [1, 10, null], [0, 11, 1.5]],
    ['stubVolumeM3', [1e-6, 1, null], [0, 1.1]],
    // From below the sea to where people work.
    ['altitudeM', [-500, 6000, null], [-501, 6001]],
  ] as const)('%s', (field, taken, refused) => {
    for (const value of taken) expect(takes(field, value).success, String(value)).toBe(true);
    for (const value of refused) expect(takes(field, value).success, String(value)).toBe(false);
  });

  test('data time begins at 0', () => {
    expect(newSheetEntrySchema.safeParse({ elapsedS: 0, fields: {} }).success).toBe(true);
    expect(newSheetEntrySchema.safeParse({ elapsedS: -1, fields: {} }).success).toBe(false);
    expectExactShape(
      newSheetEntrySchema,
      { elapsedS: 5, fields: { site: 'a' } },
      { mayLack: ['fields.site'] },
    );
  });
});

describe('words', () => {
  test.each([
    ['passRule', RULES],
    ['sensorSees', ['unknown', 'system', 'section', 'stub', 'pump_side']],
    ['core', ['unknown', 'in', 'out']],
    ['oil', ['unknown', 'mineral', 'alkylbenzene', 'poe', 'pve', 'pag']],
    ['systemHistory', ['unknown', 'new', 'opened', 'open_for_days', 'burnt_out', 'flooded']],
    ['pumpBallast', ['unknown', 'yes', 'no']],
    [
      'refrigerant',
      [
        ...['unknown', 'R-22', 'R-32', 'R-134a', 'R-290', 'R-404A', 'R-407C', 'R-410A'],
        ...['R-448A', 'R-454B', 'R-454C', 'R-513A', 'R-600a', 'R-717', 'R-744', 'R-1234yf'],
      ],
    ],
  ] as const)('%s', (field, words) => {
    expectWords(words, (word) => takes(field, word));
  });

  test('that somebody types are of some length', () => {
    for (const field of ['site', 'equipment', 'serial', 'coldestPlace', 'people']) {
      expect(takes(field, 'a'.repeat(200)).success, field).toBe(true);
      expect(takes(field, 'a'.repeat(201)).success, field).toBe(false);
    }
    expect(takes('pumpOilChangedOn', 'last spring').success).toBe(true);
    expect(takes('valveOrder', 'a'.repeat(500)).success).toBe(true);
    expect(takes('valveOrder', 'a'.repeat(501)).success).toBe(false);
    expect(takes('seenSection', 'a'.repeat(61)).success).toBe(false);
  });
});

describe('what has a structure', () => {
  const TUBE = { role: 'gas', outerDiameterM: 0.02, wallM: 0.001, lengthM: 12, section: 'A' };
  const SECTION = { name: 'A', was: 'B', volumeM3: 0.01, hoseHere: true };
  const JOIN = { kind: 'branch_valve', between: ['A', 'B'], state: 'closed' };
  const GAUGE = { kind: 'gauge', gaugePa: 1e6 };
  const NITROGEN = {
    ...{ atMs: 1000, pressure: GAUGE, temperatureC: 20, step: 2, justFilled: true, note: 'a' },
  };
  const NITROGEN_GAUGE = {
    ...{ accuracyShare: 0.01, accuracyOf: 'reading', fullScale: GAUGE, stepPa: 7000 },
    ...{ thermometerK: 2, ambientPa: 90_000, makersMost: GAUGE },
  };
  const CYCLE = { targetPa: 500, holdS: 900 };
  const field = (name: keyof Sheet) => sheetSchema.shape[name];

  test.each([
    ['tubes', [TUBE], []],
    ['vessels', [{ kind: 'receiver', size: { by: 'volume', volumeM3: 0.1 }, section: 'A' }], []],
    [
      'vessels',
      [
        {
          ...{ kind: 'indoor_coil', section: 'A' },
          size: { by: 'charge', chargeKg: 3, refrigerant: 'R-32' },
        },
      ],
      [],
    ],
    ['vessels', [{ kind: 'other', size: { by: 'usual' }, section: '' }], []],
    ['sections', [SECTION], ['*.was']],
    ['joins', [JOIN], []],
    ['nitrogenReadings', [NITROGEN], []],
    ['nitrogenGauge', NITROGEN_GAUGE, []],
    ['triplePlan', { from: 'teaching', cycles: [CYCLE], breakToPa: 101_325 }, []],
    ['tickedSteps', [{ step: 'hook_up', state: 'done', atS: 5 }], []],
  ] as const)('%s: %j', (name, example, mayLack) => {
    expectExactShape(field(name), example, { mayLack });
  });

  test.each([
    ['tubes', TUBE, 'role', ['gas', 'liquid', 'suction', 'discharge', 'other']],
    [
      'vessels',
      { size: { by: 'usual' }, section: '' },
      'kind',
      [
        ...['indoor_coil', 'outdoor_coil', 'compressor', 'accumulator', 'receiver'],
        ...['filter_drier', 'other'],
      ],
    ],
    [
      'joins',
      JOIN,
      'kind',
      [
        ...['open_line', 'service_valve', 'branch_valve', 'expansion_valve', 'reversing_valve'],
        ...['solenoid', 'check_valve'],
      ],
    ],
    ['joins', JOIN, 'state', ['unknown', 'open', 'closed']],
    ['tickedSteps', { step: 'hook_up', atS: 5 }, 'state', ['done', 'not_needed']],
    [
      'tickedSteps',
      { state: 'done', atS: 5 },
      'step',
      [
        ...['nitrogen_test', 'hook_up', 'pump_check', 'ballast_open', 'pull_down'],
        ...['ballast_close', 'target', 'depth', 'valve_off', 'pump_off', 'hold', 'verdict'],
        ...['oil_change', 'cores_in', 'tool_closed', 'sensor_isolated', 'valves_opened'],
        ...['pressure_positive', 'tool_off', 'power_on'],
      ],
    ],
  ] as const)('%s: %j with each %s', (name, rest, word, words) => {
    expectWords(words, (one) => field(name).safeParse([{ ...rest, [word]: one }]));
  });

  test.each([
    ['tubes', TUBE, 'outerDiameterM', [0.0025, 0.3], [0.0019, 0.31]],
    ['tubes', TUBE, 'wallM', [0.0001, 0.009], [0.00009, 0.021]],
    ['tubes', TUBE, 'lengthM', [0.1, 2000], [0, 2001]],
    ['tubes', TUBE, 'section', ['', 'a'.repeat(60)], ['a'.repeat(61)]],
    ['sections', SECTION, 'name', ['a', 'a'.repeat(60)], ['', 'a'.repeat(61)]],
    ['sections', SECTION, 'was', ['a'], ['', 'a'.repeat(61)]],
    ['sections', SECTION, 'volumeM3', [0.001, 100, null], [0, 101]],
    ['joins', JOIN, 'between', [['A', 'B']], [['A', ''], ['', 'B'], ['A'], ['A', 'B', 'C']]],
    ['nitrogenReadings', NITROGEN, 'atMs', [0, 8.64e15], [-1, 8.65e15]],
    ['nitrogenReadings', NITROGEN, 'temperatureC', [-60, 90, null], [-61, 91]],
    ['nitrogenReadings', NITROGEN, 'step', [1, 9], [0, 10, 1.5]],
    ['nitrogenReadings', NITROGEN, 'note', ['', 'a'.repeat(200)], ['a'.repeat(201)]],
    [
      'nitrogenReadings',
      NITROGEN,
      'pressure',
      // Nothing is below an absolute vacuum.
      [
        { kind: 'gauge', gaugePa: -101_325 },
        { kind: 'gauge', gaugePa: 30e6 },
      ],
      [
        { kind: 'gauge', gaugePa: -101_326 },
        { kind: 'gauge', gaugePa: 31e6 },
      ],
    ],
  ] as const)('%s: %j, bounds of %s', (name, rest, inner, taken, refused) => {
    const takesOne = (value: unknown) => field(name).safeParse([{ ...rest, [inner]: value }]);
    for (const value of taken) expect(takesOne(value).success, JSON.stringify(value)).toBe(true);
    for (const value of refused) expect(takesOne(value).success, JSON.stringify(value)).toBe(false);
  });

  test.each([
    ['accuracyShare', [0, 0.2], [-0.01, 0.21]],
    ['stepPa', [0, 1e6], [-1, 1.1e6]],
    ['thermometerK', [0, 10], [-1, 11]],
    ['ambientPa', [30_000, 110_000, null], [29_999, 110_001]],
    ['accuracyOf', ['full_scale', 'reading'], ['', 'nonsense']],
    ['makersMost', [GAUGE, null], [1e6]],
  ] as const)('the gauge’s %s', (inner, taken, refused) => {
    const takesIt = (value: unknown) =>
      field('nitrogenGauge').safeParse({ ...NITROGEN_GAUGE, [inner]: value }).success;
    for (const value of taken) expect(takesIt(value), JSON.stringify(value)).toBe(true);
    for (const value of refused) expect(takesIt(value), JSON.stringify(value)).toBe(false);
  });

  test('evacuations with nitrogen between them', () => {
    const plan = (change: object) =>
      takes('triplePlan', { from: 'own', cycles: [], breakToPa: 101_325, ...change }).success;
    expectWords(['own', 'teaching', ...RULES], (from) => ({ success: plan({ from }) }));
    expect(plan({ cycles: Array.from({ length: 6 }, () => CYCLE) })).toBe(true);
    expect(plan({ cycles: Array.from({ length: 7 }, () => CYCLE) })).toBe(false);
    for (const targetPa of [0, 200_001])
      expect(plan({ cycles: [{ ...CYCLE, targetPa }] })).toBe(false);
    for (const holdS of [60, 86_400, null])
      expect(plan({ cycles: [{ ...CYCLE, holdS }] })).toBe(true);
    for (const holdS of [59, 86_401]) expect(plan({ cycles: [{ ...CYCLE, holdS }] })).toBe(false);
    for (const breakToPa of [1000, 1e6]) expect(plan({ breakToPa })).toBe(true);
    for (const breakToPa of [999, 1.1e6]) expect(plan({ breakToPa })).toBe(false);
  });

  test('a wall leaves a bore, names are different, and one hose is on one section', () => {
    const why = (name: string, value: unknown) => takes(name, value).error?.issues[0]?.message;
    expect(why('tubes', [{ ...TUBE, wallM: 0.01 }])).toMatch(/thicker than the tube/u);
    expect(takes('tubes', [{ ...TUBE, wallM: 0.0099 }]).success).toBe(true);
    const other = { ...SECTION, name: 'C', hoseHere: false };
    expect(takes('sections', [SECTION, other]).success).toBe(true);
    expect(why('sections', [SECTION, { ...other, name: 'A' }])).toMatch(/the same name/u);
    expect(why('sections', [SECTION, { ...other, hoseHere: true }])).toMatch(/one section only/u);
    const step = { step: 'hook_up', state: 'done', atS: 5 };
    expect(why('tickedSteps', [step, step])).toMatch(/say each once/u);
  });

  test('lists have an end', () => {
    const many = (length: number, one: (at: number) => object) =>
      Array.from({ length }, (_, at) => one(at));
    const lists = [
      ['tubes', 40, () => TUBE],
      ['vessels', 40, () => ({ kind: 'other', size: { by: 'usual' }, section: '' })],
      ['sections', 40, (at: number) => ({ ...SECTION, name: `${at}`, hoseHere: false })],
      ['joins', 40, () => JOIN],
      ['nitrogenReadings', 100, () => NITROGEN],
    ] as const;
    for (const [name, most, one] of lists) {
      expect(takes(name, many(most, one)).success, name).toBe(true);
      expect(takes(name, many(most + 1, one)).success, name).toBe(false);
    }
  });
});

describe('the sheet of somebody who entered nothing', () => {
  test('can be taken as it stands, and has nothing that nobody said', () => {
    expect(sheetSchema.parse(DEFAULT_SHEET)).toEqual(DEFAULT_SHEET);
    expect(sheetFromEntries([])).toEqual(DEFAULT_SHEET);
    const texts = Object.values(DEFAULT_SHEET).filter((value) => typeof value === 'string');
    expect(texts.every((text) => ['', 'unknown', 'own'].includes(text))).toBe(true);
    const lists = Object.values(DEFAULT_SHEET).filter((value) => Array.isArray(value));
    expect(lists.every((list) => list.length === 0)).toBe(true);
    expect(DEFAULT_SHEET.triplePlan.cycles).toEqual([]);
  });

  test('has the trade’s usual limits: 500 micron, valved off at half, 15 minutes, no more than 5 micron a minute', () => {
    expect(micronFromPa(DEFAULT_SHEET.targetPa)).toBeCloseTo(500, 9);
    expect(micronFromPa(DEFAULT_SHEET.isolateAtPa)).toBeCloseTo(250, 9);
    expect(micronFromPa(DEFAULT_SHEET.endLimitPa)).toBeCloseTo(500, 9);
    expect(DEFAULT_SHEET.holdS).toBe(15 * 60);
    expect(micronFromPa(DEFAULT_SHEET.leakLimitPaPerS * 60)).toBeCloseTo(5, 9);
  });

  test('takes the latest word for each field', () => {
    const said = (elapsedS: number, fields: Partial<Sheet>) => ({ elapsedS, fields });
    const sheet = sheetFromEntries([said(1, { site: 'a', holdS: 600 }), said(2, { site: 'b' })]);
    expect(sheet).toMatchObject({ site: 'b', holdS: 600, equipment: '' });
  });
});
