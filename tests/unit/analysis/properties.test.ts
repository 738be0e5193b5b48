/** What holds of every conclusion, whatever the readings: properties of the public judge. */
import type { Mark } from '../../../protocol/mark.ts';
import { PASS_RULE_IDS, passRuleOf } from '../../../protocol/pass-rules.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { PRESSURE_UNITS, pressureFromPa, pressureToPa } from '../../../protocol/units.ts';
import type { Conclusions, Estimate } from '../../../web/analysis/conclusions.ts';
import { boilOff } from '../../../web/analysis/flows/boil-off.ts';
import { leakRateInUnits } from '../../../web/analysis/flows/leak-rate.ts';
import { speedOnPlateauM3PerS } from '../../../web/analysis/flows/pumping-speed.ts';
import { waterRemovedG } from '../../../web/analysis/flows/water-removed.ts';
import { judge } from '../../../web/analysis/judge.ts';
import type { History, HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { holdSeen } from '../../../web/analysis/rise/hold-seen.ts';
import { judgePassRule, letsThrough } from '../../../web/analysis/verdict/judge-pass-rule.ts';
import { anyHarm, anyShare, harmed } from '../../support/harmed-readings.ts';
import { historyOf } from '../../support/invented-curves.ts';
import { jobSession } from '../../support/job-sessions.ts';
import { faultsIn, numbersIn } from '../../support/walk-conclusions.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const SHEET = { ...DEFAULT_SHEET, volumeM3: 0.01 };
const anySeed = fc.integer({ min: 0, max: 1_000_000 });
describe('any readings at all', () => {
  test('give an answer of finite numbers, intervals in order, or none', () => {
    fc.assert(
      fc.property(
        anySeed,
        fc.array(anyHarm, { maxLength: 3 }),
        anyShare,
        fc.boolean(),
        (seed, harms, share, isMarked) => {
          const { points, marks, endS } = jobSession(seed);
          const history = historyOf(harmed(points, harms));
          const nowS = Math.ceil(share * endS);
          const conclusions = judge(history, isMarked ? marks : [], SHEET, nowS);
          expect(faultsIn(conclusions)).toEqual([]);
        },
      ),
      { numRuns: 250, seed: 11 },
    );
  });

  test('are judged where there is one reading, or all at one time', () => {
    for (const count of [1, 2, 3, 1000]) {
      const points = Array.from({ length: count }, (_, i) => ({
        elapsedS: 10,
        pressurePa: 100 + i,
        condition: 'ok' as const,
        temperatureC: null,
      }));
      for (const nowS of [0, 10, 12, 100, 1e6]) {
        for (const marks of [[], jobSession(1).marks]) {
          expect(faultsIn(judge(historyOf(points), marks, SHEET, nowS))).toEqual([]);
        }
      }
    }
  });

  test('give rules, leaks and water finite numbers too', () => {
    fc.assert(
      fc.property(anySeed, fc.array(anyHarm, { maxLength: 3 }), (seed, harms) => {
        const { points, isolatedS, endS } = jobSession(seed);
        const history = historyOf(harmed(points, harms));
        expect(numbersIn(besides(history, isolatedS, endS)).every(Number.isFinite)).toBe(true);
      }),
      { numRuns: 100, seed: 12 },
    );
  });
});

/** Everything that is drawn from a hold and its pull-down beside the judge's own conclusions. */
function besides(history: History, isolatedS: number, endS: number): unknown {
  const seen = holdSeen(history, isolatedS, endS);
  const plateau = boilOff(history, { fromS: -1, toS: isolatedS });
  const speed = plateau && speedOnPlateauM3PerS(history, 0, plateau, 0.01, null);
  const rate = judge(history, [], SHEET, endS).rise?.leakRatePaM3PerS ?? null;
  return {
    rules: PASS_RULE_IDS.map((id) => {
      const rule = passRuleOf(id, SHEET);
      return [judgePassRule(rule, seen, null), letsThrough(rule, seen.startPa?.estimate ?? 0, 1)];
    }),
    plateau,
    water: plateau && waterRemovedG(plateau, speed, null),
    leak: rate && leakRateInUnits(rate, null),
  };
}

test('the walk through conclusions finds what is wrong with them', () => {
  expect(faultsIn({ rise: { leakPaPerS: { estimate: 1, low: 2, high: 3 } } })).toHaveLength(1);
  expect(faultsIn({ remaining: { p10S: 5, p50S: 4, p90S: null } })).toHaveLength(1);
  expect(faultsIn({ curve: [{ lowPa: -1, midPa: 2, highPa: 3 }] })).toHaveLength(1);
  expect(faultsIn({ a: [Number.NaN, Infinity] })).toHaveLength(2);
});

describe('the past', () => {
  test('is judged the same, whatever comes after', () => {
    fc.assert(
      fc.property(anySeed, fc.array(anyHarm, { maxLength: 2 }), anyShare, (seed, harms, share) => {
        const { points, marks, endS } = jobSession(seed);
        const nowS = Math.ceil(share * endS);
        const given = harmed(points, harms);
        const later: HistoryPoint[] = [nowS + 1e-6, nowS + 1, nowS + 90, nowS + 1e6].map(
          (elapsedS) => ({ elapsedS, pressurePa: 1e5, condition: 'ok', temperatureC: 90 }),
        );
        const past = given.filter(({ elapsedS }) => !(elapsedS > nowS));
        const pastMarks = marks.filter(({ elapsedS }) => elapsedS <= nowS);
        const then = judge(historyOf(past), pastMarks, SHEET, nowS);
        expect(judge(historyOf([...given, ...later]), marks, SHEET, nowS)).toEqual(then);
      }),
      { numRuns: 120, seed: 13 },
    );
  });
});

/** The parts of a conclusion that are words, or lists and nothings, without its numbers. */
function wordsOf(value: unknown): unknown {
  if (typeof value === 'number') return 'a number';
  if (Array.isArray(value)) return value.map(wordsOf);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, wordsOf(inner)]));
}

/** The same words, and numbers that agree within a share, or are both next to nothing. */
function expectAlike(one: unknown, other: unknown, share: number): void {
  expect(wordsOf(one)).toEqual(wordsOf(other));
  const [left, right] = [numbersIn(one), numbersIn(other)];
  const off = left.map((value, i) => {
    const away = Math.abs(value - (right[i] ?? Number.NaN));
    return away / Math.max(Math.abs(value), 1e-6);
  });
  expect(Math.max(0, ...off)).toBeLessThan(share);
}

describe('time', () => {
  /** Bins begin at whole seconds, the widest at multiples of this: so long a shift moves none of them. */
  const SHIFT_S = 4096;

  /** The same moment of a job, now and after all of it has come later; in the earlier one's times. */
  function bothOf(seed: number, share: number, isMarked: boolean): [Conclusions, Conclusions] {
    const { points: any, marks: all, endS } = jobSession(seed);
    // Sixty-fourths of a second stay exact when they are shifted; others would be rounded anew.
    const points = any.map((point) => ({
      ...point,
      elapsedS: Math.round(point.elapsedS * 64) / 64,
    }));
    const marks = isMarked ? all : [];
    const nowS = 2 * Math.ceil((share * endS) / 2);
    const later = judge(
      historyOf(points.map((point) => shifted(point, SHIFT_S))),
      marks.map((mark) => shifted(mark, SHIFT_S)),
      SHEET,
      nowS + SHIFT_S,
    );
    return [judge(historyOf(points), marks, SHEET, nowS), moved(later, -SHIFT_S)];
  }

  test('may begin later: stage, rise and verdict come later by as much, and nothing else changes', () => {
    fc.assert(
      fc.property(anySeed, anyShare, fc.boolean(), (seed, share, isMarked) => {
        const [then, later] = bothOf(seed, share, isMarked);
        expectAlike(seenIn(later), seenIn(then), 1e-6);
        const fitted = fittedIn(then);
        for (const [i, { low, estimate, high }] of fittedIn(later).entries()) {
          const before = fitted[i] ?? { low: 0, estimate: 0, high: 0 };
          // Fits end where rounding lets them: that is little beside what they leave open.
          // Of the mixtures that hardly matter one stands for three, and rounding may choose another.
          const little = 0.3 * (before.high - before.low);
          expect(Math.abs(low - before.low)).toBeLessThanOrEqual(little);
          // A middle between two peaks moves further.
          const between = 0.4 * (before.high - before.low);
          expect(Math.abs(estimate - before.estimate)).toBeLessThanOrEqual(between);
          expect(Math.abs(high - before.high)).toBeLessThanOrEqual(little);
        }
      }),
      { numRuns: 60, seed: 14 },
    );
  });

  /** Words, moments and present readings: what no fit has a hand in, but for the verdict. */
  function seenIn(conclusions: Conclusions) {
    const { sinceS, heldS, verdict } = conclusions.rise ?? {};
    return { ...conclusions, forecast: null, rise: { sinceS, heldS, verdict } };
  }

  function fittedIn({ rise }: Conclusions): Estimate[] {
    return rise === null ? [] : [rise.leakPaPerS, rise.moisturePa, rise.endOfHold];
  }

  test('may begin later: a forecast stays what it is', () => {
    // Windows of points are cut at moments, and rounding may put a point on either side of one: so a
    // forecast is not the same to the digit, and once in a while it lies that near to another outcome.
    const pairs = Array.from({ length: 150 }, (_, seed) =>
      bothOf(seed, 0.2 + 0.2 * (seed % 3), seed % 2 === 0).map(({ forecast }) => forecast),
    );
    const same = pairs.filter(([then, later]) => then?.outcome === later?.outcome);
    expect(same.length).toBeGreaterThanOrEqual(0.97 * pairs.length);
    const told = same.flatMap(([then, later]) => {
      const [early, late] = [then?.remaining?.p50S ?? 0, later?.remaining?.p50S ?? 0];
      return early > 0 ? [Math.abs(late / early - 1)] : [];
    });
    expect(told.length).toBeGreaterThan(20);
    const close = told.filter((off) => off < 0.03);
    expect(close.length).toBeGreaterThanOrEqual(0.9 * told.length);
  });

  function shifted<T extends HistoryPoint | Mark>(at: T, byS: number): T {
    return { ...at, elapsedS: at.elapsedS + byS };
  }

  /** All that is a time on the recording's clock, earlier or later. */
  function moved(conclusions: Conclusions, byS: number): Conclusions {
    const at = (timeS: number) => timeS + byS;
    const or = (timeS: number | null) => (timeS === null ? null : at(timeS));
    const { stage, forecast, rise } = conclusions;
    return {
      ...conclusions,
      nowS: at(conclusions.nowS),
      // One waits from the recording's own beginning, which is 0 by definition.
      stage: stage.name === 'waiting' ? stage : { ...stage, sinceS: at(stage.sinceS) },
      pullDownS: or(conclusions.pullDownS),
      targetReachedS: or(conclusions.targetReachedS),
      isolationDepthReachedS: or(conclusions.isolationDepthReachedS),
      holds: conclusions.holds.map((hold) => ({
        ...hold,
        fromS: at(hold.fromS),
        toS: at(hold.toS),
      })),
      forecast: forecast && {
        ...forecast,
        sinceS: at(forecast.sinceS),
        curve: forecast.curve.map((point) => ({ ...point, elapsedS: at(point.elapsedS) })),
      },
      rise: rise && {
        ...rise,
        sinceS: at(rise.sinceS),
        curve: rise.curve.map((point) => ({ ...point, elapsedS: at(point.elapsedS) })),
      },
    };
  }
});

describe('units', () => {
  test('in which readings and sheet were written change nothing beyond their rounding', () => {
    fc.assert(
      fc.property(anySeed, anyShare, fc.constantFrom(...PRESSURE_UNITS), (seed, share, unit) => {
        const { points, marks, endS } = jobSession(seed);
        const nowS = Math.ceil(share * endS);
        const throughUnit = (pressurePa: number) =>
          pressureToPa(pressureFromPa(pressurePa, unit), unit);
        const written = points.map((point) => ({
          ...point,
          pressurePa: point.pressurePa === null ? null : throughUnit(point.pressurePa),
        }));
        const sheet = {
          ...SHEET,
          targetPa: throughUnit(SHEET.targetPa),
          isolateAtPa: throughUnit(SHEET.isolateAtPa),
          endLimitPa: throughUnit(SHEET.endLimitPa),
          allowedRisePa: throughUnit(SHEET.allowedRisePa),
          leakLimitPaPerS: throughUnit(SHEET.leakLimitPaPerS),
        };
        expectAlike(
          judge(historyOf(written), marks, sheet, nowS),
          judge(historyOf(points), marks, SHEET, nowS),
          1e-5,
        );
      }),
      { numRuns: 60, seed: 15 },
    );
  });
});
