import { FEWEST_RESULTS, scoreCalls } from '../../../../web/analysis/training/call-score.ts';
import { seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const result = (right: boolean, surePercent: number) =>
  ({ cause: 'leak', truth: right ? 'leak' : 'moisture', surePercent }) as const;
const many = (count: number, right: boolean, surePercent: number) =>
  Array.from({ length: count }, () => result(right, surePercent));

test('fewer than five results say nothing', () => {
  expect(scoreCalls([])).toBeNull();
  expect(scoreCalls(many(FEWEST_RESULTS - 1, true, 90))).toBeNull();
  expect(scoreCalls(many(FEWEST_RESULTS, true, 90))).not.toBeNull();
});

test('half of a right answer is not a right one', () => {
  const half = { cause: 'leak', truth: 'leak_and_moisture', surePercent: 60 } as const;
  expect(scoreCalls(Array.from({ length: 5 }, () => half))?.right.estimate).toBe(0);
});

describe('the Brier score', () => {
  test('is the mean square of what the sureness was off by', () => {
    // 0.1² twice, 0.4² once, and wrong: 0.7², 0.5². (0.02 + 0.16 + 0.49 + 0.25)/5
    const calls = [...many(2, true, 90), result(true, 60), result(false, 70), result(false, 50)];
    const score = scoreCalls(calls);
    expect(score?.brier.estimate).toBeCloseTo(0.184, 12);
    expect(score?.right.estimate).toBeCloseTo(0.6, 12);
    expect(score?.sureness).toBeCloseTo(0.72, 12);
  });

  test('is a quarter for whoever always says fifty percent, right or not', () => {
    for (const right of [0, 3, 8]) {
      const calls = [...many(right, true, 50), ...many(8 - right, false, 50)];
      expect(scoreCalls(calls)?.brier.estimate).toBeCloseTo(0.25, 12);
    }
  });

  test('is worst for whoever is sure and wrong', () => {
    expect(scoreCalls(many(6, false, 100))?.brier.estimate).toBe(1);
    expect(scoreCalls(many(6, true, 100))?.brier.estimate).toBe(0);
  });
});

describe('the interval', () => {
  // All of n right: 1 − m falls short of 1 by so much that mⁿ = 1/20, the chance to see it.
  test.each([5, 20, 100])('of %i right ones in a row leaves room for luck', (count) => {
    const { right } = scoreCalls(many(count, true, 90)) ?? {};
    expect(right?.low).toBeCloseTo(20 ** (-1 / count), 9);
    expect(right?.high).toBe(1);
  });

  test('is the same seen from the other side', () => {
    const some = scoreCalls([...many(3, true, 80), ...many(9, false, 80)])?.right;
    const others = scoreCalls([...many(9, true, 80), ...many(3, false, 80)])?.right;
    expect(1 - (some?.low ?? NaN)).toBeCloseTo(others?.high ?? NaN, 9);
    expect(1 - (some?.high ?? NaN)).toBeCloseTo(others?.low ?? NaN, 9);
  });

  test('holds the truth at least nine times out of ten, few results or many', () => {
    const random = seeded(11);
    const TRIALS = 1000;
    for (const share of [0.05, 0.3, 0.5, 0.9]) {
      for (const count of [5, 12, 60]) {
        // Sure by 30 or by 90 percent, at random: the true mean of the squares is known.
        const brier =
          [0.3, 0.9].reduce((sum, p) => sum + share * (1 - p) ** 2 + (1 - share) * p ** 2, 0) / 2;
        let rightHeld = 0;
        let brierHeld = 0;
        for (let trial = 0; trial < TRIALS; trial += 1) {
          const calls = Array.from({ length: count }, () =>
            result(random() < share, random() < 0.5 ? 30 : 90),
          );
          const score = scoreCalls(calls);
          if (!score) throw new Error('too few');
          rightHeld += Number(score.right.low <= share && share <= score.right.high);
          brierHeld += Number(score.brier.low <= brier && brier <= score.brier.high);
        }
        expect(rightHeld / TRIALS).toBeGreaterThan(0.9);
        expect(brierHeld / TRIALS).toBeGreaterThan(0.9);
      }
    }
  });

  test('narrows with every further result', () => {
    const widths = [8, 80, 800].map((count) => {
      const calls = [...many(count / 2, true, 70), ...many(count / 2, false, 70)];
      const { low = NaN, high = NaN } = scoreCalls(calls)?.right ?? {};
      return high - low;
    });
    expect(widths).toEqual([...widths].sort((a, b) => b - a));
    expect(widths.at(-1)).toBeLessThan(0.12);
  });
});
