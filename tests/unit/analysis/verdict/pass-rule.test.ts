import {
  PASS_RULE_IDS,
  PASS_RULES,
  passRuleOf,
  type PassRule,
} from '../../../../protocol/pass-rules.ts';
import { DEFAULT_SHEET, sheetFromEntries } from '../../../../protocol/sheet.ts';
import { micronFromPa, paFromMicron } from '../../../../protocol/units.ts';
import { holdSeen, type HoldSeen } from '../../../../web/analysis/rise/hold-seen.ts';
import { judgePassRule, letsThrough } from '../../../../web/analysis/verdict/judge-pass-rule.ts';
import { historyOf, normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const ISOLATED_S = 120;

/** A hold from a start at a steady rate, in micron and minutes, seen every second. */
function seen(startMicron: number, micronPerMin: number, minutes: number, noise = 0): HoldSeen {
  const random = seeded(9);
  const endS = ISOLATED_S + 60 * minutes;
  const points = Array.from({ length: endS + 1 }, (_, elapsedS) => {
    const heldMin = Math.max(elapsedS - ISOLATED_S, 0) / 60;
    const micron = startMicron + micronPerMin * heldMin + noise * normal(random);
    return {
      elapsedS,
      pressurePa: paFromMicron(micron),
      condition: 'ok' as const,
      temperatureC: null,
    };
  });
  return holdSeen(historyOf(points), ISOLATED_S, endS);
}

const OWN = passRuleOf('own', DEFAULT_SHEET);
const HOUR = PASS_RULES['ufgs-15182'];
const outcomeOf = (rule: PassRule, hold: HoldSeen, error: number | null = 0) =>
  judgePassRule(rule, hold, error)?.outcome;

describe('a hold by the rule', () => {
  test('passes where it stays below, by more than the gauge errs', () => {
    // Valved off at 250, 20 micron more after the hour; 500 allowed.
    expect(outcomeOf(HOUR, seen(250, 0.33, 61))).toBe('passes');
    expect(outcomeOf(HOUR, seen(250, 0.33, 61), 0.1)).toBe('passes');
  });

  test('fails where the end is above, and as soon as it is', () => {
    expect(outcomeOf(HOUR, seen(250, 6, 61))).toBe('fails');
    expect(outcomeOf(HOUR, seen(250, 30, 12))).toBe('fails');
  });

  test('fails where it was valved off above the final pressure', () => {
    const judgement = judgePassRule(HOUR, seen(350, 0, 61), 0);
    expect(judgement?.outcome).toBe('fails');
    expect(judgement?.conditions.map(({ kind, outcome }) => [kind, outcome])).toEqual([
      ['final_pressure', 'fails'],
      ['end_limit', 'passes'],
    ]);
  });

  test('is not held long enough until its time is over', () => {
    expect(outcomeOf(HOUR, seen(250, 0.33, 59))).toBe('not_held_long_enough');
    expect(outcomeOf(OWN, seen(250, 1, 14))).toBe('not_held_long_enough');
    expect(outcomeOf(OWN, seen(250, 1, 15))).toBe('passes');
  });

  test('lies within the gauge’s error where that could turn it', () => {
    // 460 of 500: a tenth more would be 511; three per cent would not.
    expect(outcomeOf(HOUR, seen(250, 3.5, 61), 0.1)).toBe('within_gauge_error');
    expect(outcomeOf(HOUR, seen(250, 3.5, 61), 0.03)).toBe('passes');
    // 540 of 500: a tenth less would keep it.
    expect(outcomeOf(HOUR, seen(250, 4.83, 61), 0.1)).toBe('within_gauge_error');
    expect(outcomeOf(HOUR, seen(250, 4.83, 61), 0.03)).toBe('fails');
  });

  test('reckons with a usual error where nobody stated one, and says so', () => {
    expect(judgePassRule(HOUR, seen(250, 3.5, 61), null)).toMatchObject({
      outcome: 'within_gauge_error',
      gaugeErrorAssumed: true,
    });
    expect(judgePassRule(HOUR, seen(250, 3.5, 61), 0.03)?.gaugeErrorAssumed).toBe(false);
  });

  test('measures a rise by the difference, in which most of a gauge’s error cancels', () => {
    // Risen by 100 of 200; a tenth of 350 would be 35, of the rise it is 10.
    const rise = judgePassRule(OWN, seen(250, 6.6, 16), 0.1)?.conditions.find(
      ({ kind }) => kind === 'allowed_rise',
    );
    expect(rise?.outcome).toBe('passes');
    expect(micronFromPa(rise?.shownPa?.estimate ?? 0)).toBeCloseTo(6.6 * 15, 0);
  });

  test('has noise in its intervals', () => {
    const quiet = judgePassRule(OWN, seen(250, 5, 16), 0);
    const noisy = judgePassRule(OWN, seen(250, 5, 16, 8), 0);
    const width = (judgement: typeof quiet) => {
      const shownPa = judgement?.conditions[1]?.shownPa;
      return (shownPa?.high ?? 0) - (shownPa?.low ?? 0);
    };
    expect(width(noisy)).toBeGreaterThan(width(quiet));
    expect(width(noisy)).toBeLessThan(paFromMicron(30));
  });

  test('was not seen in a silence at its end', () => {
    const points = Array.from({ length: 1500 }, (_, elapsedS) => ({
      elapsedS,
      pressurePa: elapsedS > 800 && elapsedS < 1200 ? null : 30,
      condition: elapsedS > 800 && elapsedS < 1200 ? ('fault' as const) : ('ok' as const),
      temperatureC: null,
    }));
    expect(outcomeOf(OWN, holdSeen(historyOf(points), ISOLATED_S, 1499))).toBe('not_seen');
  });

  test('has no rise where nobody saw its beginning, and still the limit at its end', () => {
    const unseen = { ...seen(250, 1, 16), startPa: null };
    expect(judgePassRule(OWN, unseen, 0)).toMatchObject({
      outcome: 'not_seen',
      conditions: [
        { kind: 'final_pressure', shownPa: null, outcome: 'not_seen' },
        { kind: 'end_limit', outcome: 'passes' },
        { kind: 'allowed_rise', shownPa: null, outcome: 'not_seen' },
      ],
    });
    expect(judgePassRule(OWN, { ...seen(250, 1, 5), startPa: null }, 0)?.conditions).toMatchObject([
      { outcome: 'not_seen' },
      { outcome: 'not_held_long_enough' },
      { outcome: 'not_held_long_enough' },
    ]);
  });

  test('has the noise of both readings in its rise, each by itself', () => {
    const about = (estimate: number, down: number, up: number) => {
      return { estimate, low: estimate - down, high: estimate + up };
    };
    const hold = {
      heldS: OWN.holdS ?? 0,
      startPa: about(30, 3, 0.8),
      pressureAt: () => about(40, 0.6, 4),
    };
    const rise = judgePassRule(OWN, hold, 0)?.conditions.at(-1)?.shownPa;
    // It is least where the end was lower and the start higher than shown: √(0.6² + 0.8²) = 1, √(4² + 3²) = 5.
    expect(rise?.estimate).toBeCloseTo(10, 12);
    expect(rise?.low).toBeCloseTo(9, 12);
    expect(rise?.high).toBeCloseTo(15, 12);
  });

  test('is not judged by a rule that asks for nothing', () => {
    const nothing = { ...OWN, finalPa: null, endLimitPa: null, allowedRisePa: null };
    expect(judgePassRule(nothing, seen(250, 1, 16), 0)).toBeNull();
  });

  test('may be the depth alone', () => {
    expect(outcomeOf(PASS_RULES['canada-300'], seen(250, 50, 5))).toBe('passes');
    expect(outcomeOf(PASS_RULES['canada-300'], seen(350, 0, 5))).toBe('fails');
  });
});

const TIGHT = { holdS: 600, endLimitPa: 60, allowedRisePa: 30 };

describe('what a rule lets through', () => {
  test('is the rise that it allows over its hold', () => {
    // By hand: 200 micron in 15 min are 13.33 micron/min; 26.66 Pa / 900 s · 10 L = 2.963e-4 Pa·m³/s.
    const through = letsThrough(OWN, paFromMicron(250), 0.01);
    expect(micronFromPa((through?.leakPaPerS ?? 0) * 60)).toBeCloseTo(200 / 15, 9);
    expect(through?.airPaM3PerS).toBeCloseTo(2.963e-4, 7);
  });

  test('is a hundred times as much air in 100 L as in 1 L', () => {
    const [small, large] = [letsThrough(HOUR, 40, 1e-3), letsThrough(HOUR, 40, 0.1)];
    expect((large?.airPaM3PerS ?? 0) / (small?.airPaM3PerS ?? 1)).toBeCloseTo(100, 9);
    expect(letsThrough(HOUR, 40, null)?.airPaM3PerS).toBeNull();
  });

  test('is more the deeper the hold starts, where only its end is limited', () => {
    const at = (micron: number) =>
      micronFromPa((letsThrough(HOUR, paFromMicron(micron), null)?.leakPaPerS ?? 0) * 60);
    expect(at(300)).toBeCloseTo(200 / 60, 9);
    expect(at(100)).toBeCloseTo(400 / 60, 9);
  });

  test('is not known of a rule without a hold or limit, nor of a start above the limit', () => {
    expect(letsThrough(PASS_RULES['en-378-2'], 40, null)).toBeNull();
    expect(letsThrough(PASS_RULES['ashrae-guideline-3'], 40, null)).toBeNull();
    expect(letsThrough(HOUR, paFromMicron(500), null)).toBeNull();
    expect(letsThrough({ ...OWN, holdS: null }, 40, null)).toBeNull();
    expect(letsThrough({ ...OWN, endLimitPa: null, allowedRisePa: null }, 40, null)).toBeNull();
    // One of the two is enough, and the tighter one counts.
    const { holdS, endLimitPa, allowedRisePa } = TIGHT;
    const of = (rule: Partial<PassRule>) =>
      letsThrough({ ...OWN, ...TIGHT, ...rule }, 40, null)?.leakPaPerS;
    expect(of({ endLimitPa: null })).toBeCloseTo(allowedRisePa / holdS, 12);
    expect(of({ allowedRisePa: null })).toBeCloseTo((endLimitPa - 40) / holdS, 12);
    expect(of({})).toBeCloseTo(Math.min(allowedRisePa, endLimitPa - 40) / holdS, 12);
  });

  test('is what a hold with that leak shows: a little more breaks the rule, a little less keeps it', () => {
    const leak = letsThrough(HOUR, paFromMicron(250), null)?.leakPaPerS ?? 0;
    const perMin = micronFromPa(leak * 60);
    expect(outcomeOf(HOUR, seen(250, perMin * 1.02, 61))).toBe('fails');
    expect(outcomeOf(HOUR, seen(250, perMin * 0.98, 61))).toBe('passes');
  });
});

describe('the rules as data', () => {
  test('are the sheet’s own unless one is chosen', () => {
    expect(DEFAULT_SHEET.passRule).toBe('own');
    expect(OWN).toMatchObject({
      kind: 'maker_sheet',
      finalPa: DEFAULT_SHEET.targetPa,
      holdS: DEFAULT_SHEET.holdS,
      endLimitPa: DEFAULT_SHEET.endLimitPa,
      allowedRisePa: DEFAULT_SHEET.allowedRisePa,
    });
    for (const id of PASS_RULE_IDS) expect(passRuleOf(id, DEFAULT_SHEET).id).toBe(id);
  });

  test('leave sheets of older recordings as they were', () => {
    const sheet = sheetFromEntries([{ elapsedS: 0, fields: { targetPa: 40 } }]);
    expect(sheet).toEqual({ ...DEFAULT_SHEET, targetPa: 40 });
  });

  test('have a document behind them, and say who has seen it', () => {
    for (const { source } of Object.values(PASS_RULES)) {
      expect(source?.document).toBeTruthy();
      expect(['read', 'second_hand', 'memory']).toContain(source?.evidence);
    }
  });

  test('have the pascals that the Australian and New Zealand code prints', () => {
    // 500 micron (67 Pa), 600 micron (80 Pa), 100 micron (13.33 Pa), 4500 micron (600 Pa).
    const { 'au-nz-deep': deep, 'au-nz-triple': triple } = PASS_RULES;
    expect(deep.finalPa).toBeCloseTo(67, 0);
    expect(deep.endLimitPa).toBeCloseTo(80, 1);
    expect(deep.allowedRisePa).toBeCloseTo(13.33, 2);
    expect(triple.beforePa[0]).toBeCloseTo(600, 0);
  });
});
