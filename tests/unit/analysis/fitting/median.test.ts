/** The median against the middle of the sorted list, of few values and of many. */
import {
  median,
  medianOfFive,
  mediansAlong,
  valueAtPlace,
} from '../../../../web/analysis/fitting/median.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? 0) + upper) / 2;
}

test('the median is the middle of the sorted values, however many and however alike', () => {
  const values = fc.oneof(
    fc.array(fc.integer({ min: -5, max: 5 }), { maxLength: 300 }),
    fc.array(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }), {
      minLength: 60,
      maxLength: 300,
    }),
  );
  fc.assert(
    fc.property(values, (list) => {
      const before = [...list];
      // 0 and −0 are the same here.
      expect(median(list) === middle(list)).toBe(true);
      expect(list).toEqual(before);
    }),
  );
});

test('lists in order, against it and all alike are no trap', () => {
  const ascending = Array.from({ length: 4000 }, (_, i) => i);
  expect(median(ascending)).toBe(1999.5);
  expect(median(ascending.toReversed())).toBe(1999.5);
  expect(median(ascending.map(() => 7))).toBe(7);
  expect(median([])).toBe(0);
});

test('the value at a place is the one that stands there in ascending order', () => {
  const lists = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 60 });
  fc.assert(
    fc.property(lists, fc.nat(), (list, at) => {
      const place = at % list.length;
      const sorted = [...list].sort((a, b) => a - b);
      expect(valueAtPlace(list, place)).toBe(sorted[place]);
    }),
  );
  expect(valueAtPlace([], 0)).toBe(0);
});

describe('medians along a series', () => {
  const series = fc.array(fc.integer({ min: -9, max: 9 }), { maxLength: 25 });
  const reach = fc.integer({ min: 0, max: 4 });

  test('are those of each window, which is cut off at the ends', () => {
    fc.assert(
      fc.property(series, reach, reach, (values, before, after) => {
        const found = mediansAlong(values, before, after);
        expect(found).toHaveLength(values.length);
        for (const [i, value] of found.entries()) {
          expect(value === middle(values.slice(Math.max(i - before, 0), i + after + 1))).toBe(true);
        }
      }),
    );
  });

  test('of five at once are the same', () => {
    fc.assert(
      fc.property(series, (values) => {
        for (const [i, value] of mediansAlong(values, 2, 2).entries()) {
          expect(value === middle(values.slice(Math.max(i - 2, 0), i + 3))).toBe(true);
        }
      }),
    );
    const five = fc.tuple(fc.nat(9), fc.nat(9), fc.nat(9), fc.nat(9), fc.nat(9));
    fc.assert(fc.property(five, (values) => medianOfFive(...values) === middle(values)));
  });
});
