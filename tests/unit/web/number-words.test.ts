/** The numbers behind a verdict, the rule beside it and the causes of a stall, in words. */
import { describe, expect, test } from 'vitest';
import { passRuleOf } from '../../../protocol/pass-rules.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { Rise } from '../../../web/analysis/conclusions.ts';
import type { HoldByRule } from '../../../web/analysis/verdict/hold-by-rule.ts';
import type { RuleOutcome } from '../../../web/analysis/verdict/judge-pass-rule.ts';
import { leakRateInUnits } from '../../../web/analysis/flows/leak-rate.ts';
import type { Numbers, RiseNumbers } from '../../../web/analysis/numbers.ts';
import { chartLines } from '../../../web/figure/chart-lines.ts';
import { listDisturbances } from '../../../web/words/list-disturbances.ts';
import { listHolds } from '../../../web/words/list-holds.ts';
import { listVerdictNumbers } from '../../../web/words/list-verdict-numbers.ts';
import { sayBetween } from '../../../web/words/say-between.ts';
import { causeFacts, sayCause } from '../../../web/words/say-cause.ts';
import { sayPercentBetween } from '../../../web/words/say-percent.ts';
import { sayPressureBetween, sayRateBetween } from '../../../web/words/say-pressure.ts';
import { sayRuleBeside } from '../../../web/words/say-rule-beside.ts';
import { tellingCheck } from '../../../web/words/say-telling-check.ts';
import { conclusionsWith, forecastWith, micron, riseWith } from './invented-conclusions.ts';
import { MICRON } from '../../support/english-speech.ts';

describe('an estimate in words', () => {
  test('has both its ends, no lower one where it may be none, and one number where they agree', () => {
    const digits = (value: number) => value.toFixed(0);
    const grams = (amount: string) => `${amount} g`;
    expect(sayBetween({ estimate: 38, low: 34, high: 42 }, digits, grams, MICRON)).toBe(
      'about 38 g, between 34 and 42',
    );
    expect(sayBetween({ estimate: 4, low: 0, high: 9 }, digits, grams, MICRON)).toBe(
      'no more than 9 g',
    );
    expect(sayBetween({ estimate: 38, low: 37.9, high: 38.2 }, digits, grams, MICRON)).toBe('38 g');
  });

  test('has the digits that its interval deserves', () => {
    const said = (estimate: number, low: number, high: number) =>
      sayPressureBetween(micron(estimate, low, high), MICRON);
    expect(said(739, 614, 876)).toBe('about 740 micron, between 610 and 880');
    expect(said(1174, 1170, 1178)).toBe('about 1174 micron, between 1170 and 1178');
    expect(said(612, 610, 614)).toBe('about 612 micron, between 610 and 614');
    expect(sayRateBetween(riseWith().leakPaPerS, MICRON)).toBe(
      'about 38 micron a minute, between 34 and 42',
    );
  });

  test('of a part says when it says nothing', () => {
    expect(sayPercentBetween({ estimate: 0.27, low: 0.22, high: 0.31 }, MICRON)).toBe(
      'about 27 %, between 22 and 31',
    );
    expect(sayPercentBetween({ estimate: 0.5, low: 0.05, high: 0.95 }, MICRON)).toBe(
      'not told apart yet',
    );
    expect(sayPercentBetween(null, MICRON)).toBe('nothing rises');
  });
});

const byRule = (change: Partial<HoldByRule> = {}, outcome: RuleOutcome = 'passes'): HoldByRule => ({
  rule: passRuleOf('own', DEFAULT_SHEET),
  isUnentered: false,
  judgement: { outcome, conditions: [], gaugeErrorShare: 0.1, gaugeErrorAssumed: true },
  withheldBy: null,
  foreseen: null,
  letsThrough: null,
  ...change,
});

describe('the rule beside the physics', () => {
  test('never outshouts a leak or moisture', () => {
    for (const verdict of ['leak', 'leak_and_moisture'] as const) {
      const { headline, remark } = sayRuleBeside(byRule(), verdict, MICRON);
      expect(headline).toBe('Pass rule: passes');
      expect(remark).toContain('do not close up on it');
    }
    expect(sayRuleBeside(byRule(), 'moisture', MICRON).remark).toContain('there all the same');
    expect(sayRuleBeside(byRule(), 'undecided', MICRON).remark).toContain(
      'does not make the system tight and dry',
    );
    expect(sayRuleBeside(byRule(), 'tight_dry', MICRON).remark).toBe('');
  });

  test('says that it fails, that it could be either, and what it is on the way to', () => {
    const said = (outcome: RuleOutcome, foreseen: RuleOutcome | null = null) =>
      sayRuleBeside(byRule({ foreseen }, outcome), 'moisture', MICRON);
    expect(said('fails').headline).toBe('Pass rule: fails');
    expect(said('within_gauge_error').headline).toContain('within the gauge’s error');
    expect(said('not_held_long_enough').headline).toContain('not held long enough');
    expect(said('not_held_long_enough', 'fails').remark).toContain('will fail');
    expect(said('not_held_long_enough').remark).toBe('');
    const toPass = (verdict: Verdict) =>
      sayRuleBeside(byRule({ foreseen: 'passes' }, 'not_held_long_enough'), verdict, MICRON).remark;
    expect(toPass('tight_dry')).toBe('On this curve it will pass.');
    expect(toPass('leak')).toContain('do not close up on it');
    expect(toPass('undecided')).toBe('');
  });

  test('is not asked where the readings prove nothing; what is broken stays broken', () => {
    const falling = byRule({ withheldBy: 'falling' });
    expect(sayRuleBeside(falling, 'undecided', MICRON).headline).toBe('Pass rule: not judged');
    expect(sayRuleBeside(falling, 'undecided', MICRON).remark).toContain('The pressure falls');
    const pumped = byRule({ withheldBy: 'isolation_unsure' });
    expect(sayRuleBeside(pumped, 'undecided', MICRON).remark).toContain('may still be pulling');
    const broken = byRule({ withheldBy: 'falling' }, 'fails');
    expect(sayRuleBeside(broken, 'undecided', MICRON).headline).toBe('Pass rule: fails');
    const stub = byRule({ withheldBy: 'not_the_system' }, 'fails');
    expect(sayRuleBeside(stub, 'undecided', MICRON).headline).toBe('Pass rule: not judged');
  });

  test('names figures that nobody entered as settings of ours', () => {
    expect(sayRuleBeside(byRule({ isUnentered: true }), 'leak', MICRON).name).toBe('our settings');
    expect(sayRuleBeside(byRule(), 'leak', MICRON).name).toContain('maker');
  });
});

describe('the numbers behind a verdict', () => {
  const hold: RiseNumbers = {
    recognisedBy: 'curve',
    startPa: micron(251, 250, 252),
    standsPa: micron(480, 479, 481),
    isFitted: true,
    moistureShare: { estimate: 0.27, low: 0.22, high: 0.31 },
    noisePa: paFromMicron(0.8),
    byRule: byRule(),
    vapour: null,
    volumeM3: null,
    leakRate: null,
    refrigerantLoss: null,
  };
  const rows = (
    rise: Partial<RiseNumbers> = {},
    change: { rise?: Partial<Rise>; sheet?: Partial<Sheet>; numbers?: Partial<Numbers> } = {},
  ) => {
    const groups = listVerdictNumbers(
      riseWith(change.rise),
      { holds: [], water: null, rise: { ...hold, ...rise }, ...change.numbers },
      { ...DEFAULT_SHEET, ...change.sheet },
      MICRON,
    );
    const said = (name: string) =>
      groups.flatMap((group) => group.rows).find((row) => row.name === name)?.value;
    return { said, notes: groups.flatMap((group) => group.notes).join(' ') };
  };

  test('are in the words of the trade, with both ends', () => {
    const { said } = rows();
    expect(said('Steady inflow')).toBe('about 38 micron a minute, between 34 and 42');
    expect(said('Moisture’s part of the rise')).toBe('about 27 %, between 22 and 31');
    expect(said('Boil-off gives way to a steady rise')).toBe('after 2 min 50 s');
    expect(said('Will stand after 15 min')).toContain('about 1030 micron, between 990 and 1070');
    expect(said('Scatter of the readings')).toContain('0.8');
    expect(said('Valved off')).toBe('16:40 into the recording, as the curve shows');
    expect(said('Stood at valve-off')).toBe('251 micron');
  });

  test('that nobody can know say what is missing', () => {
    const { said, notes } = rows();
    expect(said('Inflow of air')).toBe('not known: volume missing → enter it in the job sheet');
    expect(said('Vapour pressure of water')).toContain('metal’s temperature missing');
    expect(notes).toContain('What leak this rule lets through is not to be said');
  });

  test('of a part of the system say where its inflow stands, volume or not', () => {
    for (const volumeM3 of [null, 0.012]) {
      const { said } = rows(
        {},
        { rise: { reservations: ['not_the_system'] }, sheet: { volumeM3 } },
      );
      expect(said('Inflow of air')).toMatch(/the sensor sees a part of it.*see Leak hunt/u);
    }
  });

  test('without a fit are not known yet, whatever stands in their place', () => {
    const { said } = rows({ isFitted: false });
    for (const name of [
      'Steady inflow',
      'Will stand after 15 min',
      'Moisture’s part of the rise',
    ]) {
      expect(said(name), name).toBe('not known yet: too few readings');
    }
  });

  test('have the leak rate with its conditions where the volume is known', () => {
    const air = { estimate: 2e-4, low: 1.5e-4, high: 2.6e-4 };
    const { said, notes } = rows(
      { leakRate: leakRateInUnits(air, null), volumeM3: 0.012 },
      // The sheet’s own may be of something else by now.
      { sheet: { volumeM3: 0.002 } },
    );
    expect(said('In mbar·L/s')).toBe('about 2.0·10⁻³, between 1.5·10⁻³ and 2.6·10⁻³');
    expect(notes).toContain('Air from outside into the vacuum');
    expect(notes).toContain('volume 12 L');
  });

  test('say of a changeover to come that it is foreseen', () => {
    expect(rows({}, { rise: { heldS: 100 } }).said('Boil-off gives way to a steady rise')).toBe(
      'after 2 min 50 s, as foreseen',
    );
  });

  test('say what else befell the hold, and nothing where nothing did', () => {
    const befell = (change: Partial<Rise>) =>
      listDisturbances(riseWith(change), paFromMicron(0.8), MICRON).map(({ value }) => value);
    const steps = [{ atS: 1000 + 185, sizePa: paFromMicron(12) }];
    expect(befell({ steps, evenedPa: null, earlierHolds: 0 })).toEqual([
      'up 12.0 micron at 3:05: the hold starts anew there',
    ]);
    expect(befell({ steps: [], evenedPa: paFromMicron(-20), earlierHolds: 2 })).toEqual([
      'down by 20.0 micron',
      'the 2 holds before it',
    ]);
    expect(befell({ steps: [], evenedPa: paFromMicron(1), earlierHolds: 0 })).toEqual([]);
  });

  test('list several holds, and not a single one', () => {
    const told = {
      fromS: 600,
      toS: 1200,
      recognisedBy: 'mark',
      isolationSure: true,
      pumpedS: 590,
      repeats: false,
      startPa: micron(250, 249, 251),
      endPa: micron(480, 479, 481),
    } as const;
    const repeat = { ...told, fromS: 1800, toS: 2400, pumpedS: 600, repeats: true, endPa: null };
    expect(listHolds([told], MICRON)).toBeNull();
    const list = listHolds([told, repeat], MICRON);
    expect(list?.rows.map(({ value }) => value)).toEqual([
      'pumped 9 min 50 s before; from 250 micron to 480 micron in 10 min',
      'pumped 10 min before; from 250 micron to not measured in 10 min; a repeat hold',
    ]);
  });
});

describe('why it stalls', () => {
  test('boiling water has the temperature at which it boils at this pressure', () => {
    const facts = causeFacts(conclusionsWith({ pressurePa: 611.657 }));
    // The triple point: 611.657 Pa, 0.01 °C (IAPWS R14-08).
    expect(sayCause('boil_off', facts, MICRON).evidence).toContain(
      '4590 micron water boils at 0 °C',
    );
    expect(sayCause('boil_off', facts, MICRON).check).toContain('never a flame');
    const blind = causeFacts(conclusionsWith({ pressurePa: null }));
    expect(sayCause('boil_off', blind, MICRON).evidence).toContain('triple point');
  });

  test('a floor has its level', () => {
    const forecast = forecastWith({ floorPa: micron(739, 614, 876) });
    const facts = causeFacts(conclusionsWith({ forecast }));
    expect(sayCause('floor', facts, MICRON).evidence).toContain('about 740 micron, between 610');
  });

  test.each([
    [['floor', 'ballast', 'boil_off'], 'Close the gas ballast'],
    [['boil_off', 'floor'], 'Warm the coldest metal'],
    [['slow_tail', 'floor', 'wet_oil'], 'Valve the system off'],
  ] as const)('%j are told apart by one check', (causes, todo) => {
    const check = tellingCheck(causes, MICRON);
    expect(check?.todo).toContain(todo);
    expect(check?.outcomes.length).toBeGreaterThan(1);
  });

  test('warming and valving off carry their caution', () => {
    expect(tellingCheck(['boil_off', 'floor'], MICRON)?.caution).toContain('never a flame');
    expect(tellingCheck(['floor', 'slow_tail'], MICRON)?.caution).toContain('oil is drawn back');
  });

  test.each([
    [['boil_off']],
    [['gas', 'boil_off']],
    [['gas', 'slow_tail']],
    [['rising', 'floor']],
  ] as const)('%j have nothing to be told apart so', (causes) => {
    expect(tellingCheck(causes, MICRON)).toBeNull();
  });
});

describe('the floor in the chart', () => {
  const log = { axis: 'log', originS: 0, fromS: 0, toS: 900 } as const;
  const floorsOf = (floorPa: ReturnType<typeof micron> | null) =>
    chartLines(log, DEFAULT_SHEET, MICRON, forecastWith({ floorPa })).filter(
      ({ kind }) => kind === 'floor',
    );

  test('is a line of its own where it is known, and none where it may be anywhere', () => {
    expect(floorsOf(micron(739, 614, 876))).toMatchObject([{ label: 'heads for about 740' }]);
    expect(floorsOf(micron(300, 60, 500))).toEqual([]);
    expect(floorsOf(null)).toEqual([]);
  });
});

test('the line in the rise is the rule’s only where the rule has it', () => {
  const linear = { axis: 'linear', originS: 0, fromS: 0, toS: 900 } as const;
  const label = (sheet: Partial<Sheet>) =>
    chartLines(linear, { ...DEFAULT_SHEET, ...sheet }, MICRON)[0]?.label;
  expect(label({})).toBe('rule: 500 after 15 min');
  // UFGS-15182 has 500 micron at its end as well; a depth alone has no end.
  expect(label({ passRule: 'ufgs-15182', holdS: 3600 })).toBe('rule: 500 after 1 h');
  expect(label({ passRule: 'canada-300' })).toBe('sheet: 500 after 15 min');
  expect(label({ passRule: 'au-nz-deep' })).toBe('sheet: 500 after 15 min');
});

test('every verdict has something to say beside a rule that passes, but the one that agrees', () => {
  const verdicts: Verdict[] = ['tight_dry', 'moisture', 'leak', 'leak_and_moisture', 'undecided'];
  const silent = verdicts.filter(
    (verdict) => sayRuleBeside(byRule(), verdict, MICRON).remark === '',
  );
  expect(silent).toEqual(['tight_dry']);
});
