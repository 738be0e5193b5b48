import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NumberSet } from '../../../server/sources/number-set.ts';

test('holds what a plain set holds, in whatever order it comes', () => {
  const step = fc.record({
    from: fc.integer({ min: -40, max: 40 }),
    length: fc.integer({ min: 0, max: 9 }),
  });
  fc.assert(
    fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
      const numbers = new NumberSet();
      const plain = new Set<number>();
      for (const { from, length } of steps) {
        const all = Array.from({ length: length + 1 }, (_, i) => from + i);
        const isNew = all.some((number) => !plain.has(number));
        const added =
          length === 0 ? numbers.add(from) : numbers.addStretch({ from, to: from + length });
        expect(added).toBe(isNew);
        for (const number of all) plain.add(number);
      }
      for (let number = -45; number < 55; number += 1) {
        expect(numbers.has(number)).toBe(plain.has(number));
      }
      const sorted = [...plain].sort((a, b) => a - b);
      const missing: number[] = [];
      for (let n = sorted[0] ?? 0; n < (sorted.at(-1) ?? 0); n += 1)
        if (!plain.has(n)) missing.push(n);
      const inGaps = numbers
        .gaps()
        .flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
      expect(inGaps).toEqual(missing);
    }),
    { numRuns: 500, seed: 5 },
  );
});

test('is one stretch after a day without a loss', () => {
  const numbers = new NumberSet();
  for (let n = 0; n < 864_000; n += 1) numbers.add(n);
  expect(numbers.stretches()).toEqual([{ from: 0, to: 863_999 }]);
  expect(numbers.gaps()).toEqual([]);
});
