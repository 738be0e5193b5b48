import { describe, expect, test } from 'vitest';
import { PASS_RULES, passRuleOf } from '../../../protocol/pass-rules.ts';
import { REFRIGERANTS } from '../../../protocol/refrigerants.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { judgePassRule, letsThrough } from '../../../web/analysis/verdict/judge-pass-rule.ts';
import { leakRateInUnits } from '../../../web/analysis/flows/leak-rate.ts';
import { refrigerantLoss } from '../../../web/analysis/flows/refrigerant-loss.ts';
import {
  listLeakRate,
  sayLeakRateConditions,
  sayRefrigerantLoss,
} from '../../../web/words/say-leak-rate.ts';
import {
  listRuleConditions,
  sayLetsThrough,
  sayRule,
  sayRuleLimits,
  sayRuleSource,
} from '../../../web/words/say-pass-rule.ts';
import { sayWaterConditions, sayWaterRemoved } from '../../../web/words/say-water-removed.ts';
import { saySheetValue } from '../../../web/words/say-sheet-value.ts';
import { MICRON } from '../../support/english-speech.ts';

const AIR = { estimate: 2e-4, low: 1.5e-4, high: 2.6e-4 };

describe('a leak in words', () => {
  test('has every unit with its interval and the temperature it is stated at', () => {
    const rate = leakRateInUnits(AIR, null);
    expect(listLeakRate(rate, MICRON).map(({ name, value }) => `${name}: ${value}`)).toEqual([
      'In Pa·m³/s: about 2.0·10⁻⁴, between 1.5·10⁻⁴ and 2.6·10⁻⁴',
      'In mbar·L/s: about 2.0·10⁻³, between 1.5·10⁻³ and 2.6·10⁻³',
      'In micron·L/s: about 1.5, between 1.1 and 2.0',
      'In standard cm³/min: about 0.11, between 0.083 and 0.14',
      'In g of air a year: about 75, between 56 and 98',
    ]);
    const conditions = (known: boolean) => sayLeakRateConditions(rate, '12 L', known, MICRON);
    expect(conditions(false)).toContain('gas at 20 °C (taken: nobody entered it), volume 12 L');
    expect(conditions(true)).not.toContain('taken: nobody');
  });

  test('that may be none has no lower end', () => {
    const [row] = listLeakRate(leakRateInUnits({ ...AIR, low: 0 }, 20), MICRON);
    expect(row?.value).toBe('no more than 2.6·10⁻⁴');
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
    const [range, why] = sayRefrigerantLoss(loss, MICRON);
    expect(range).toContain(
      'R-410A at 14.5 bar absolute would lose between 1 kg and 100 kg a year',
    );
    expect(why).toContain('order of magnitude');
  });

  test('loses nothing where there may be no leak, or no pressure', () => {
    const [refrigerant] = REFRIGERANTS;
    if (!refrigerant) throw new Error('no refrigerant');
    expect(refrigerantLoss({ ...AIR, low: 0 }, refrigerant, 1e6, 20)).toBeNull();
    expect(refrigerantLoss(AIR, refrigerant, 1e5, 20)).toBeNull();
  });
});

describe('water that was pumped away', () => {
  const plateau = { fromS: 600, toS: 1200, pressurePa: paFromMicron(4000), integralPaS: 3e5 };
  const grams = { estimate: 1.34, low: 0.62, high: 2.8 };

  test('has an interval, where it was seen, and what it rests on', () => {
    const found = { kind: 'grams', plateau, grams, speedFrom: 'curve' } as const;
    expect(sayWaterRemoved(found, MICRON)).toBe('about 1.3 g, between 0.62 and 2.8');
    expect(sayWaterConditions(found, MICRON)).toContain(
      'from 10:00 to 20:00 into the recording, near 4000 micron. The pumping speed is from the fall',
    );
  });

  test('that is not known says what is missing, and where to enter it', () => {
    const found = { kind: 'no_speed', plateau, volumeKnown: false } as const;
    expect(sayWaterRemoved(found, MICRON)).toContain('volume missing → enter it in the job sheet');
    expect(sayWaterRemoved({ ...found, volumeKnown: true }, MICRON)).toContain(
      'enter pump and hose',
    );
    expect(sayWaterRemoved({ kind: 'no_plateau' }, MICRON)).toContain('no plateau');
  });
});

describe('a pass rule in words', () => {
  const rule = PASS_RULES['ufgs-15182'];

  test('says what it asks for and where that stands', () => {
    expect(sayRule(rule, MICRON)).toBe('Down to 300 micron; hold 1 h; then at most 500 micron.');
    expect(sayRuleSource(rule, false, MICRON)).toMatch(/3\.3\.3\.$/u);
    expect(sayRuleSource(PASS_RULES['en-378-2'], false, MICRON)).toContain('From memory');
    expect(sayRuleSource(PASS_RULES['au-nz-deep'], false, MICRON)).toContain('Restated by others');
    const own = passRuleOf('own', DEFAULT_SHEET);
    expect(sayRuleSource(own, false, MICRON)).toContain('job sheet');
    expect(sayRuleSource(own, true, MICRON)).toContain('No standard');
    expect(sayRuleLimits(PASS_RULES['ufgs-15741n'], MICRON)).toEqual([
      'The 2 evacuations before it are for you to check: this program judges the last hold.',
    ]);
    expect(sayRuleLimits(rule, MICRON).join()).toContain('colder than 2 °C');
  });

  test('says of each thing how the hold stands', () => {
    const shownPa = (micron: number) => {
      const [low, high] = [paFromMicron(micron - 2), paFromMicron(micron + 2)];
      return { estimate: paFromMicron(micron), low, high };
    };
    const hold = { heldS: 3700, startPa: shownPa(280), pressureAt: () => shownPa(480) };
    const judgement = judgePassRule(rule, hold, 0.1);
    expect(judgement && listRuleConditions(judgement, MICRON)).toEqual([
      {
        name: 'Before the hold at most 300 micron',
        value: '280 micron: within the gauge’s error: it could be either',
      },
      {
        name: 'At its end at most 500 micron',
        value: '480 micron: within the gauge’s error: it could be either',
      },
    ]);
  });

  test('says what leak it passes, on this volume', () => {
    const through = letsThrough(rule, paFromMicron(250), 0.01);
    expect(through && sayLetsThrough(through, MICRON)).toBe(
      'This rule passes a steady inflow of up to 4.17 micron a minute: 9.3·10⁻⁴ mbar·L/s of air into this volume.',
    );
    const unknown = letsThrough(rule, paFromMicron(250), null);
    expect(unknown && sayLetsThrough(unknown, MICRON)).toContain('needs the volume');
  });

  test('stands on the sheet with the gauge’s error', () => {
    const sheet = { ...DEFAULT_SHEET, gaugeErrorShare: 0.1 };
    expect(saySheetValue(sheet, 'gaugeErrorShare', MICRON)).toBe('10 %');
    expect(saySheetValue(DEFAULT_SHEET, 'gaugeErrorShare', MICRON)).toBe('not entered');
    // Nobody entered a figure of it: then it is nobody's sheet.
    expect(saySheetValue(sheet, 'passRule', MICRON)).toContain('none entered');
    const entered = { ...sheet, allowedRisePa: 7 };
    expect(saySheetValue(entered, 'passRule', MICRON)).toContain('maker');
  });
});
