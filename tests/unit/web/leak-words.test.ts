import { describe, expect, test } from 'vitest';
import { PASS_RULES, passRuleOf } from '../../../protocol/pass-rules.ts';
import { REFRIGERANTS } from '../../../protocol/refrigerants.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { judgePassRule, letsThrough } from '../../../web/analysis/judge-pass-rule.ts';
import { leakRateInUnits } from '../../../web/analysis/leak-rate.ts';
import { refrigerantLoss } from '../../../web/analysis/refrigerant-loss.ts';
import {
  listLeakRate,
  sayRefrigerantLoss,
  sayWaterRemoved,
} from '../../../web/words/say-leak-rate.ts';
import {
  sayLetsThrough,
  sayRule,
  sayRuleJudgement,
  sayRuleSource,
} from '../../../web/words/say-pass-rule.ts';
import { saySheetValue } from '../../../web/words/say-sheet-value.ts';

const UNITS = { pressure: 'micron', temperature: '°C' } as const;
const AIR = { estimate: 2e-4, low: 1.5e-4, high: 2.6e-4 };

describe('a leak in words', () => {
  test('has every unit with its interval and the temperature it is stated at', () => {
    const rows = listLeakRate(leakRateInUnits(AIR, null), UNITS);
    expect(rows.map(({ value }) => value)).toEqual([
      '2.0·10⁻⁴ (1.5·10⁻⁴ to 2.6·10⁻⁴) Pa·m³/s',
      '2.0·10⁻³ (1.5·10⁻³ to 2.6·10⁻³) mbar·L/s',
      '1.5 (1.1 to 2.0) micron·L/s',
      '0.11 (0.083 to 0.14) cm³/min, standard (0 °C, 101 325 Pa)',
      '75 (56 to 98) g of air a year',
    ]);
    expect(rows[0]?.name).toContain('20');
  });

  test('loses refrigerant by orders of magnitude, and says that they are no more', () => {
    const refrigerant = REFRIGERANTS.find(({ number }) => number === 'R-410A');
    if (!refrigerant) throw new Error('no R-410A');
    const loss = refrigerantLoss(AIR, refrigerant, refrigerant.vapourPressurePa, 20);
    if (!loss) throw new Error('there is a loss');
    // By hand: air 1.5e-4 … 2.6e-4 Pa·m³/s; molecular √(28.96/72.6)·13.29 = 8.39, laminar
    // 18.2/13.02·(14.29² − 1) = 284; 940 kg a year in one Pa·m³/s (M/RT · 31.6e6 s):
    // 1.5e-4·8.39·9.4e5 = 1.2e3 g to 2.6e-4·284·9.4e5 = 6.9e4 g.
    expect([loss.leastPower, loss.mostPower]).toEqual([3, 5]);
    const [range, why] = sayRefrigerantLoss(loss, UNITS);
    expect(range).toContain('between 1.00 kg and 100 kg a year');
    expect(why).toContain('order of magnitude');
  });

  test('loses nothing where there may be no leak, or no pressure', () => {
    const [refrigerant] = REFRIGERANTS;
    if (!refrigerant) throw new Error('no refrigerant');
    expect(refrigerantLoss({ ...AIR, low: 0 }, refrigerant, 1e6, 20)).toBeNull();
    expect(refrigerantLoss(AIR, refrigerant, 1e5, 20)).toBeNull();
  });

  test('has the water that was pumped away', () => {
    expect(sayWaterRemoved({ estimate: 1.34, low: 0.62, high: 2.8 })).toBe(
      'On the plateau about 1.3 (0.62 to 2.8) g of water were pumped away.',
    );
  });
});

describe('a pass rule in words', () => {
  const rule = PASS_RULES['ufgs-15182'];

  test('says what it asks for and where that stands', () => {
    expect(sayRule(rule, UNITS)).toBe('Down to 300 micron; hold 1 h; then at most 500 micron.');
    expect(sayRuleSource(rule)).toMatch(/3\.3\.3\.$/u);
    expect(sayRuleSource(PASS_RULES['en-378-2'])).toContain('From memory');
    expect(sayRuleSource(PASS_RULES['au-nz-deep'])).toContain('Restated by others');
    expect(sayRuleSource(passRuleOf('own', DEFAULT_SHEET))).toContain('job sheet');
  });

  test('says of each thing how the hold stands', () => {
    const shownPa = (micron: number) => {
      const [low, high] = [paFromMicron(micron - 2), paFromMicron(micron + 2)];
      return { estimate: paFromMicron(micron), low, high };
    };
    const hold = { heldS: 3700, startPa: shownPa(280), pressureAt: () => shownPa(480) };
    const judgement = judgePassRule(rule, hold, 0.1);
    expect(judgement && sayRuleJudgement(judgement, UNITS)).toEqual([
      'Before the hold at most 300 micron: 280 (278 to 282) micron, within the gauge’s error: it could be either.',
      'At its end at most 500 micron: 480 (478 to 482) micron, within the gauge’s error: it could be either.',
    ]);
  });

  test('says what leak it passes, on this volume', () => {
    const through = letsThrough(rule, paFromMicron(250), 0.01);
    expect(through && sayLetsThrough(through, UNITS)).toBe(
      'This rule passes a steady inflow of up to 4.17 micron a minute: 9.3·10⁻⁴ mbar·L/s of air into this volume.',
    );
    const unknown = letsThrough(rule, paFromMicron(250), null);
    expect(unknown && sayLetsThrough(unknown, UNITS)).toContain('needs the volume');
  });

  test('stands on the sheet with the gauge’s error', () => {
    const sheet = { ...DEFAULT_SHEET, gaugeErrorShare: 0.1 };
    expect(saySheetValue(sheet, 'gaugeErrorShare', UNITS)).toBe('10 %');
    expect(saySheetValue(DEFAULT_SHEET, 'gaugeErrorShare', UNITS)).toBe('not entered');
    expect(saySheetValue(sheet, 'passRule', UNITS)).toContain('maker');
  });
});
