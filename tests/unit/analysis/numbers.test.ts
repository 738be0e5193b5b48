/** The numbers behind a verdict: what readings and sheet tell beyond it. */
import { DEFAULT_SHEET, type Sheet } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { waterVapourPressurePa } from '../../../protocol/water.ts';
import type { Rise } from '../../../web/analysis/conclusions.ts';
import { moistureShare } from '../../../web/analysis/flows/moisture-share.ts';
import { rigSpeedM3PerS } from '../../../web/analysis/flows/rig-speed.ts';
import { vapourCheck } from '../../../web/analysis/flows/vapour-check.ts';
import { judge } from '../../../web/analysis/judge.ts';
import { numbersOf } from '../../../web/analysis/numbers.ts';
import { holdByRule } from '../../../web/analysis/verdict/hold-by-rule.ts';
import { effectiveSpeed } from '../../../web/plan/effective-speed.ts';
import { anySheet } from '../../support/any-sheet.ts';
import { historyOf, normal, seeded } from '../../support/invented-curves.ts';
import { faultsIn } from '../../support/walk-conclusions.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { micron, riseWith } from '../web/invented-conclusions.ts';

describe('moisture’s part of the rise', () => {
  test('is M/(M + L·t), its ends from the opposite ends of the leak', () => {
    // 210 micron of moisture, 38 micron a minute for 15 minutes: 210/(210 + 570).
    const share = moistureShare(riseWith());
    expect(share?.estimate).toBeCloseTo(210 / 780, 9);
    expect(share?.low).toBeCloseTo(190 / (190 + 42 * 15), 9);
    expect(share?.high).toBeCloseTo(230 / (230 + 34 * 15), 9);
  });

  test('of nothing is not a number', () => {
    const none = { estimate: 0, low: 0, high: 0 };
    expect(moistureShare(riseWith({ moisturePa: none, leakPaPerS: none }))).toBeNull();
  });
});

test('vapour pressure tells whether water alone can stand so high', () => {
  const at20 = waterVapourPressurePa(20);
  expect(vapourCheck(20, 0.3 * at20).outcome).toBe('below');
  expect(vapourCheck(20, 1.2 * at20).outcome).toBe('near');
  expect(vapourCheck(20, 1.6 * at20).outcome).toBe('above');
  // At −25 °C ice has 63.3 Pa (IAPWS R14-08): 100 Pa is more than ice can give.
  expect(vapourCheck(-25, 100).outcome).toBe('above');
});

describe('a hold by the rule', () => {
  const CURVE = [{ elapsedS: 0, lowPa: 1, midPa: 1, highPa: 1 }];
  const at = (value: number) => micron(value, value - 1, value + 1);
  const ruled = (change: Partial<Rise>, end: number, heldS: number, sure = true) =>
    holdByRule(
      riseWith({ curve: CURVE, heldS, ...change }),
      { heldS, startPa: at(250), pressureAt: (afterS) => (afterS > heldS ? null : at(end)) },
      { ...DEFAULT_SHEET, gaugeErrorShare: 0.02, volumeM3: 0.01 },
      sure,
    );

  test('passes or fails at its end, whatever the physics say', () => {
    expect(ruled({ verdict: 'leak' }, 300, 900).judgement?.outcome).toBe('passes');
    expect(ruled({ verdict: 'leak' }, 300, 900).foreseen).toBeNull();
    expect(ruled({}, 700, 900).judgement?.outcome).toBe('fails');
  });

  test('before its end is foreseen from the fit', () => {
    const on = (end: number) => ruled({ endOfHold: { ...at(end), atS: 900 } }, 300, 400).foreseen;
    expect(on(400)).toBe('passes');
    expect(on(1030)).toBe('fails');
    expect(on(450)).toBe('within_gauge_error');
    // A hold that starts anew ends at another moment than the rule's.
    expect(ruled({ endOfHold: { ...at(400), atS: 1100 } }, 300, 400).foreseen).toBeNull();
    expect(ruled({ curve: [], endOfHold: { ...at(400), atS: 900 } }, 300, 400).foreseen).toBeNull();
  });

  test('is no pass where the readings prove nothing', () => {
    expect(ruled({ reservations: ['falling'] }, 200, 900).withheldBy).toBe('falling');
    expect(ruled({ reservations: ['not_the_system'] }, 300, 900).withheldBy).toBe('not_the_system');
    expect(ruled({}, 300, 900, false).withheldBy).toBe('isolation_unsure');
    expect(ruled({ reservations: ['too_early'] }, 300, 900).withheldBy).toBeNull();
  });

  test('lets a leak through that the volume makes an amount of air', () => {
    // 200 micron in 900 s, into 10 L.
    const through = ruled({}, 300, 900).letsThrough;
    expect(through?.leakPaPerS).toBeCloseTo(paFromMicron(200) / 900, 9);
    expect(through?.airPaM3PerS).toBeCloseTo((paFromMicron(200) / 900) * 0.01, 9);
  });

  test('knows figures that nobody entered', () => {
    const seen = { heldS: 900, startPa: at(250), pressureAt: () => at(300) };
    const unentered = (sheet: Sheet) => holdByRule(riseWith(), seen, sheet, true).isUnentered;
    expect(unentered(DEFAULT_SHEET)).toBe(true);
    expect(unentered({ ...DEFAULT_SHEET, holdS: 1800 })).toBe(false);
    expect(unentered({ ...DEFAULT_SHEET, passRule: 'ufgs-15182' })).toBe(false);
  });
});

describe('the speed of a rig from its plates', () => {
  const rig = (bore: number, length: number, count: number, core: 'in' | 'out'): Sheet => ({
    ...DEFAULT_SHEET,
    pumpDisplacementM3PerS: 2e-3,
    pumpUltimatePa: 3,
    hoseBoreM: bore,
    hoseLengthM: length,
    hoseCount: count,
    core,
  });

  // Against the planner, which knows slip, transition and cores by the simulators' physics.
  test.each([
    [0.0095, 1.5, 1, 'out'],
    [0.0048, 1.5, 1, 'out'],
    [0.0048, 0.9, 2, 'out'],
    [0.0095, 1, 1, 'in'],
    [0.016, 3, 1, 'out'],
  ] as const)('%d m × %d m, %d, core %s, holds what the planner says', (bore, length, n, core) => {
    for (const pressurePa of [250, 400, 600]) {
      const found = rigSpeedM3PerS(rig(bore, length, n, core), pressurePa);
      const planned = effectiveSpeed(
        {
          pumpDisplacementM3PerS: 2e-3,
          pumpUltimatePa: 3,
          hoseBoreM: bore,
          hoseLengthM: length,
          hoseCount: n,
          coreInPlace: core === 'in',
          volumeM3: 0.01,
          far: [],
        },
        pressurePa,
      );
      const speed = planned?.speedM3PerS ?? Number.NaN;
      expect(found?.low).toBeLessThan(speed);
      expect(found?.high).toBeGreaterThan(speed);
    }
  });

  test('is unknown without pump or hose, and below the pump’s own floor', () => {
    const whole = rig(0.0095, 1.5, 1, 'out');
    expect(rigSpeedM3PerS({ ...whole, hoseBoreM: null }, 400)).toBeNull();
    expect(rigSpeedM3PerS({ ...whole, pumpDisplacementM3PerS: null }, 400)).toBeNull();
    expect(rigSpeedM3PerS(whole, 2)).toBeNull();
  });
});

describe('what a hold tells of the leak', () => {
  const marks = (['pump_on', 'isolated'] as const).map((kind, at) => {
    return { kind, elapsedS: at === 0 ? 1 : 600, id: at + 1, text: '', madeBy: 'hand' as const };
  });
  const told = (leakPaPerS: number, sheet: Partial<Sheet>) => {
    const random = seeded(3);
    const history = historyOf(
      Array.from({ length: 1560 }, (_, t) => ({
        elapsedS: t,
        pressurePa:
          (t <= 600 ? 25 + 90_000 * Math.exp(-t / 40) : 25 + leakPaPerS * (t - 600)) *
          (1 + 0.001 * normal(random)),
        condition: 'ok' as const,
        temperatureC: null,
      })),
    );
    const whole = { ...DEFAULT_SHEET, ...sheet };
    const entries = [{ elapsedS: 0, fields: whole }];
    return numbersOf(history, judge(history, marks, whole, 1550), whole, { marks, entries });
  };
  const KNOWN = { volumeM3: 0.01, refrigerant: 'R-32' } as const;

  test('is the inflow of air where the volume is known', () => {
    // 0.05 Pa/s into 10 L are 5e-4 Pa·m³/s, 5e-3 mbar·L/s.
    const rate = told(0.05, KNOWN).rise?.leakRate;
    expect(rate?.mbarLPerS.low).toBeLessThan(5e-3);
    expect(rate?.mbarLPerS.high).toBeGreaterThan(5e-3);
    expect(rate?.mbarLPerS.high).toBeLessThan(6e-3);
    expect(told(0.05, { refrigerant: 'R-32' }).rise?.leakRate).toBeNull();
  });

  test('is a loss of refrigerant only where that is known, and the leak is one at its least', () => {
    expect(told(0.05, KNOWN).rise?.refrigerantLoss?.refrigerant).toBe('R-32');
    expect(told(0.05, { ...KNOWN, refrigerant: 'unknown' }).rise?.refrigerantLoss).toBeNull();
    expect(told(0.05, { ...KNOWN, volumeM3: null }).rise?.refrigerantLoss).toBeNull();
    // 1 micron a minute is none by the sheet's limit of 5.
    expect(told(0.0022, KNOWN).rise?.refrigerantLoss).toBeNull();
  });

  test('and of water nothing where none boiled', () => {
    expect(told(0.05, KNOWN).water).toEqual({ kind: 'no_plateau' });
  });
});

test('any sheet over any two holds gives numbers, and none that is none', () => {
  const random = seeded(5);
  const pressureAt = (t: number) => {
    if (t <= 600) return 30 + 90_000 * Math.exp(-t / 50);
    // Reopened before it is marked.
    if (t < 994) return 40 + 0.05 * (t - 600);
    return t < 1400 ? 30 + 20 * Math.exp(-(t - 994) / 60) : 32 + 0.04 * (t - 1400);
  };
  const history = historyOf(
    Array.from({ length: 2000 }, (_, elapsedS) => ({
      elapsedS,
      pressurePa: pressureAt(elapsedS) * (1 + 0.002 * normal(random)),
      condition: 'ok' as const,
      temperatureC: null,
    })),
  );
  const marked = [
    ['pump_on', 1],
    ['isolated', 600],
    ['reopened', 1000],
    ['isolated', 1400],
  ] as const;
  const marks = marked.map(([kind, elapsedS], at) => {
    return { kind, elapsedS, id: at + 1, text: '', madeBy: 'hand' as const };
  });
  const judged = (sheet: Sheet, nowS: number) => {
    const entries = [{ elapsedS: 0, fields: sheet }];
    return numbersOf(history, judge(history, marks, sheet, nowS), sheet, { marks, entries });
  };
  const usual = judged(DEFAULT_SHEET, 1990);
  expect(usual.holds).toHaveLength(2);
  expect(usual.holds[0]?.startPa?.estimate).toBeCloseTo(30.6, 0);
  expect(usual.holds[0]?.endPa?.estimate).toBeCloseTo(59, 0);
  expect(usual.holds[1]?.pumpedS).toBeCloseTo(400, -1);
  expect(usual.rise?.leakRate).toBeNull();
  fc.assert(
    fc.property(anySheet, fc.integer({ min: 2, max: 1999 }), (sheet, nowS) => {
      expect(faultsIn(judged(sheet, nowS))).toEqual([]);
    }),
    { numRuns: 40 },
  );
  // Of no inflow that is weighed for such limits anything that was read is likely.
  const far = { holdS: 60, allowedRisePa: 749.8724255312737, volumeM3: 1e-4 };
  const deep = {
    leakLimitPaPerS: 188.329279910116,
    endLimitPa: 0.1,
    targetPa: 0.1,
    isolateAtPa: 0.1,
  };
  const rash = judged({ ...DEFAULT_SHEET, ...far, ...deep }, 650);
  expect(faultsIn(rash)).toEqual([]);
});
