/** The chance that a hold passes, told before the valve is turned. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import { mostInflowPaPerS } from '../../../../web/analysis/next-hold/hold-chance-load.ts';
import type { PullDownPoint } from '../../../../web/analysis/pull-down/pull-down-points.ts';
import { anySheet } from '../../../support/any-sheet.ts';
import { historyOf, QUIET_SENSOR, readingsOf, seeded } from '../../../support/invented-curves.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const FIRST_S = 600;
const REOPENED_S = 1500;
const NOW_S = 1560;
const START_PA = 25;

interface Hold {
  readonly leakPaPerS: number;
  readonly moisturePa: number;
}

function markOf(kind: MarkKind, elapsedS: number): Mark {
  return { id: elapsedS + 1, kind, elapsedS, text: '', madeBy: 'hand' };
}

const MARKS = [
  markOf('pump_on', 0),
  markOf('isolated', FIRST_S),
  markOf('reopened', REOPENED_S),
] as const;

/** Pumped down, held once, pumped on: asked before the hold is repeated. */
function repeated({ leakPaPerS, moisturePa }: Hold) {
  const rise = (heldS: number) => leakPaPerS * heldS - moisturePa * Math.expm1(-heldS / 200);
  const curve = (elapsedS: number): number => {
    if (elapsedS < FIRST_S) return START_PA + 3000 * Math.exp(-elapsedS / 60);
    if (elapsedS < REOPENED_S) return START_PA + rise(elapsedS - FIRST_S);
    return START_PA + rise(REOPENED_S - FIRST_S) * Math.exp(-(elapsedS - REOPENED_S) / 20);
  };
  const history = historyOf(readingsOf(curve, QUIET_SENSOR, seeded(8), 0, NOW_S));
  return (nowS: number, marks: readonly Mark[] = MARKS, sheet: Sheet = DEFAULT_SHEET) =>
    judge(history, marks, sheet, nowS).holdChance;
}

const kindsOf = (chance: ReturnType<ReturnType<typeof repeated>>) =>
  chance?.reasons.map(({ kind }) => kind);

describe('before the first hold', () => {
  const told = repeated({ leakPaPerS: 0, moisturePa: 0 });

  test('above the limit it fails, at depth the curve is silent, in the hold nobody asks', () => {
    expect(told(100)).toMatchObject({ low: 0, reasons: [{ kind: 'stands_too_high' }] });
    expect(told(100)?.high).toBeLessThan(0.05);
    expect(told(FIRST_S - 2)).toEqual({ low: 0, high: 1, reasons: [{ kind: 'curve_silent' }] });
    expect(told(FIRST_S + 100)).toBeNull();
  });

  test('readings that scatter about the limit do not make it fail, standing a fifth above does', () => {
    // 80 and 68 Pa on the way down; the limit is 67 Pa.
    expect(kindsOf(told(240))).toContain('stands_too_high');
    expect(kindsOf(told(256))).not.toContain('stands_too_high');
  });

  test('a sensor that does not see the system tells nothing of its hold', () => {
    const sheet = { ...DEFAULT_SHEET, sensorSees: 'pump_side' } as const;
    expect(kindsOf(told(FIRST_S - 2, MARKS, sheet))).toEqual(['not_the_system']);
    const shut = [...MARKS, markOf('stub_shut', 400)];
    expect(kindsOf(told(FIRST_S - 2, shut))).toEqual(['not_the_system']);
  });

  test('water that boils goes on boiling once valved off, whatever a rule allows', () => {
    const curve = (elapsedS: number) => 500 + 3000 * Math.exp(-elapsedS / 30);
    const history = historyOf(readingsOf(curve, QUIET_SENSOR, seeded(8), 0, 900));
    const sheet = { ...DEFAULT_SHEET, targetPa: 900, endLimitPa: 2000, allowedRisePa: 1500 };
    const chance = judge(history, [markOf('pump_on', 0)], sheet, 900).holdChance;
    expect(kindsOf(chance)).toContain('water_boils');
    expect(chance?.high).toBeLessThan(0.7);
  });
});

describe('before a hold is repeated', () => {
  test('a leak stays: it fails again', () => {
    const told = repeated({ leakPaPerS: 0.1, moisturePa: 0 });
    expect(told(NOW_S)?.high).toBeLessThan(0.1);
    expect(told(NOW_S)?.reasons).toMatchObject([{ kind: 'earlier_hold', risesTooMuch: 1 }]);
  });

  test('a hold that came to little will come to no more', () => {
    const told = repeated({ leakPaPerS: 0, moisturePa: 8 });
    expect(told(NOW_S)?.low).toBeGreaterThan(0.8);
  });

  test('moisture that is partly gone leaves it open, between fails and passes', () => {
    const chance = repeated({ leakPaPerS: 0, moisturePa: 60 })(NOW_S);
    expect(chance?.low).toBeLessThan(0.2);
    expect(chance?.high).toBeGreaterThan(0.8);
    expect(kindsOf(chance)).toEqual(['earlier_hold']);
  });

  test('deeper than before, what is in balance with the walls rises by more', () => {
    // It rose by 20 Pa of the 26.7 that are allowed, from 25 Pa: from 15 Pa it may rise by 30.
    const told = repeated({ leakPaPerS: 0, moisturePa: 20 });
    expect(told(NOW_S)?.low).toBeGreaterThan(0.8);
    const fell = readingsOf(
      (elapsedS) => 15 + 30 * Math.exp(-(elapsedS - REOPENED_S) / 20),
      QUIET_SENSOR,
      seeded(9),
      REOPENED_S,
      NOW_S,
    );
    const held = readingsOf(
      (elapsedS) =>
        elapsedS < FIRST_S
          ? START_PA + 3000 * Math.exp(-elapsedS / 60)
          : START_PA - 20 * Math.expm1(-(elapsedS - FIRST_S) / 200),
      QUIET_SENSOR,
      seeded(8),
      0,
      REOPENED_S,
    );
    const deeper = judge(historyOf([...held, ...fell]), MARKS, DEFAULT_SHEET, NOW_S).holdChance;
    expect(deeper?.low).toBeLessThan(0.2);
  });

  test.each(['joints_tightened', 'sections_opened', 'nitrogen_break', 'pump_off'] as const)(
    'after %s the hold before counts no more',
    (kind) => {
      const told = repeated({ leakPaPerS: 0.1, moisturePa: 0 });
      const marks = [...MARKS, markOf(kind, REOPENED_S + 20)];
      // Switching on a pump that runs would begin another stretch of pumping.
      const stands = kind === 'nitrogen_break' || kind === 'pump_off';
      const pumped = stands ? [markOf('pump_on', REOPENED_S + 30)] : [];
      expect(told(NOW_S, [...marks, ...pumped])).toEqual({
        low: 0,
        high: 1,
        reasons: [{ kind: 'changed_since_hold' }, { kind: 'curve_silent' }],
      });
    },
  );
});

describe('the most that can flow in', () => {
  const RIG = { ...DEFAULT_SHEET, volumeM3: 0.05, pumpDisplacementM3PerS: 0.001 } as const;
  const MOST_PER_S = 0.001 / 0.05;
  /** P = F + A·e^(−k·t), every 10 s: what a rig of rate k shows that something flows into at k·F. */
  const fall = (floorPa: number, ratePerS: number): PullDownPoint[] =>
    Array.from({ length: 60 }, (_, i) => ({
      elapsedS: 10 * i,
      pressurePa: floorPa + 2000 * Math.exp(-10 * i * ratePerS),
    }));

  test('is no less than what does, however much of the pump the hose lets through', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 60, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (floorPa, share) => {
          const perS = share * MOST_PER_S;
          const most = mostInflowPaPerS(floorPa, 0, fall(floorPa, perS), RIG);
          expect(most).toBeGreaterThanOrEqual(perS * floorPa * (1 - 1e-9));
        },
      ),
      { numRuns: 200, seed: 4 },
    );
  });

  test('is unknown without a volume, and where the pressure fell faster than the sheet allows', () => {
    expect(mostInflowPaPerS(1, 0, fall(1, 0.01), { ...RIG, volumeM3: null })).toBeNull();
    expect(mostInflowPaPerS(1, 0, fall(1, 0.01), RIG)).not.toBeNull();
    // Into a tenth of the volume the same pump pulls ten times as fast.
    expect(mostInflowPaPerS(1, 0, fall(1, 0.1), RIG)).toBeNull();
  });

  test('is what the pump can take away at this pressure, and what makes it rise against that', () => {
    expect(mostInflowPaPerS(40, 0, [], RIG)).toBeCloseTo(MOST_PER_S * 40, 12);
    expect(mostInflowPaPerS(40, 0.003, [], RIG)).toBeCloseTo((MOST_PER_S + 0.003) * 40, 12);
    expect(mostInflowPaPerS(40, -0.003, [], RIG)).toBeCloseTo(MOST_PER_S * 40, 12);
    expect(mostInflowPaPerS(40, 0, [], { ...RIG, pumpDisplacementM3PerS: null })).toBeNull();
  });

  test('little enough, the hold most likely passes', () => {
    // 0.05 m³ at 0.4 Pa: no more than 0.001 m³/s · 0.4 Pa / 0.05 m³ · 900 s = 7.2 Pa.
    const curve = (elapsedS: number) => 0.4 + 2000 * Math.exp(-elapsedS / 60);
    const history = historyOf(readingsOf(curve, QUIET_SENSOR, seeded(8), 0, 1200));
    const chance = judge(history, [markOf('pump_on', 0)], RIG, 1200).holdChance;
    expect(kindsOf(chance)).toEqual(['little_inflow']);
    expect(chance?.low).toBeGreaterThan(0.8);
    expect(judge(history, [], { ...RIG, volumeM3: 0.005 }, 1200).holdChance?.low).toBe(0);
  });
});

test('whatever the sheet, the figures are chances in order', () => {
  const told = repeated({ leakPaPerS: 0.01, moisturePa: 20 });
  fc.assert(
    fc.property(anySheet, fc.constantFrom(300, 590, 1510, NOW_S), (sheet, nowS) => {
      const chance = told(nowS, MARKS, sheet);
      if (chance === null) throw new Error('pumped, and no answer');
      expect(chance.low).toBeGreaterThanOrEqual(0);
      expect(chance.high).toBeGreaterThanOrEqual(chance.low);
      expect(chance.high).toBeLessThanOrEqual(1);
      expect(chance.reasons.length).toBeGreaterThan(0);
    }),
    { numRuns: 60, seed: 5 },
  );
});
