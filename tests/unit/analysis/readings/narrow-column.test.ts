/** Whole numbers are kept as they are, in no more bytes than the largest needs. */
import { NarrowColumn } from '../../../../web/analysis/readings/narrow-column.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const LENGTH = 8;

describe('what is kept', () => {
  test('is what was set and added last, whatever came before', () => {
    const change = fc.record({
      place: fc.nat(LENGTH - 1),
      value: fc.oneof(
        fc.integer({ min: -200, max: 200 }),
        fc.integer({ min: -40_000, max: 40_000 }),
        fc.integer({ min: -3e9, max: 3e9 }),
      ),
      isAdded: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(change, { maxLength: 30 }), (changes) => {
        const column = new NarrowColumn(LENGTH);
        const expected = new Array<number>(LENGTH).fill(0);
        for (const { place, value, isAdded } of changes) {
          if (isAdded) column.add(place, value);
          else column.set(place, value);
          expected[place] = value + (isAdded ? (expected[place] ?? 0) : 0);
        }
        for (const [place, value] of expected.entries()) expect(column.at(place)).toBe(value);
      }),
    );
  });

  test.each([1, -1])('is exact to the ends of each width, times %d', (sign) => {
    for (const value of [127, 128, 32_767, 32_768, 2 ** 31 - 1, 2 ** 31, 2 ** 53]) {
      const column = new NarrowColumn(LENGTH);
      column.set(3, sign * value);
      expect(column.at(3)).toBe(sign * value);
      expect(column.at(2)).toBe(0);
    }
  });
});

test('bytes grow with the largest number, and there are none of zeros alone', () => {
  const bytesOf = (...values: readonly number[]) => {
    const column = new NarrowColumn(LENGTH);
    for (const [place, value] of values.entries()) column.set(place, value);
    return column.bytes;
  };
  expect(bytesOf(0, 0)).toBe(0);
  expect(bytesOf(1, -127)).toBe(LENGTH);
  expect(bytesOf(127)).toBe(LENGTH);
  expect(bytesOf(128)).toBe(2 * LENGTH);
  expect(bytesOf(-32_767, 5)).toBe(2 * LENGTH);
  expect(bytesOf(32_768, 5)).toBe(4 * LENGTH);
  expect(bytesOf(-(2 ** 31 - 1))).toBe(4 * LENGTH);
  expect(bytesOf(2 ** 31)).toBe(8 * LENGTH);
});
