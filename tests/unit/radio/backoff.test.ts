import fc from 'fast-check';
import { expect, test } from 'vitest';
import { backoffMs } from '../../../server/sources/radio/backoff.ts';

const BACKOFF = { firstMs: 500, longestMs: 15_000 };

test('doubles with every failure up to the longest', () => {
  const waits = [1, 2, 3, 4, 5, 6, 7, 1000].map((failures) => backoffMs(BACKOFF, failures, 0));
  expect(waits).toEqual([500, 1000, 2000, 4000, 8000, 15_000, 15_000, 15_000]);
});

test('chance shortens a wait to no less than half of it', () => {
  const failures = fc.integer({ min: 1, max: 2000 });
  const chance = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });
  fc.assert(
    fc.property(failures, chance, (count, part) => {
      const whole = backoffMs(BACKOFF, count, 0);
      const wait = backoffMs(BACKOFF, count, part);
      expect(wait).toBeLessThanOrEqual(whole);
      expect(wait).toBeGreaterThanOrEqual(whole / 2);
    }),
  );
  expect(backoffMs(BACKOFF, 1, 0.5)).toBe(375);
});
