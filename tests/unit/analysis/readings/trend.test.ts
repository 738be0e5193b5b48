/** The present, and how fast it changes: neither by a single reading. */
import type { Sample } from '../../../../web/analysis/readings/samples.ts';
import { presentPressurePa, relativeRatePerS } from '../../../../web/analysis/readings/trend.ts';
import { describe, expect, test } from 'vitest';

const samples = (count: number, pressureAt: (t: number) => number, stepS = 1): Sample[] =>
  Array.from({ length: count }, (_, i) => ({
    ...{ elapsedS: 100 + i * stepS, pressurePa: pressureAt(i * stepS), count: 1 },
  }));

describe('the present pressure', () => {
  test('is the middle one of the last three', () => {
    expect(
      presentPressurePa(
        samples(5, (t) => [9, 9, 50, 90, 60][t] ?? 0),
        104,
      ),
    ).toBe(60);
    expect(
      presentPressurePa(
        samples(2, (t) => 50 + t),
        101,
      ),
    ).toBe(50.5);
    expect(
      presentPressurePa(
        samples(1, () => 7),
        101,
      ),
    ).toBe(7);
  });

  test('is unknown after twenty seconds of silence, and of what is older than that', () => {
    expect(presentPressurePa([], 0)).toBeNull();
    expect(
      presentPressurePa(
        samples(3, () => 7),
        121.9,
      ),
    ).toBe(7);
    expect(
      presentPressurePa(
        samples(3, () => 7),
        122,
      ),
    ).toBeNull();
    const slow = samples(3, (t) => t, 15);
    // At 130 the reading of 115 is still the present, the one of 100 is not.
    expect(presentPressurePa(slow, 130)).toBe(22.5);
  });
});

describe('the relative rate', () => {
  test('is that of an exponential, however often it is read', () => {
    for (const [count, stepS] of [
      [61, 1],
      [600, 0.1],
      [6, 12],
    ] as const) {
      const list = samples(count, (t) => 500 * Math.exp(-0.02 * t), stepS);
      expect(relativeRatePerS(list, 100 + (count - 1) * stepS)).toBeCloseTo(-0.02, 9);
    }
  });

  test('is of the last minute alone', () => {
    const bent = samples(181, (t) => (t < 120 ? 900 * Math.exp(-0.05 * t) : 30 + t - 120));
    const now = relativeRatePerS(bent, 280) ?? NaN;
    expect(now).toBeGreaterThan(0.008);
    expect(now).toBeLessThan(0.034);
  });

  test('is not moved by a fifth of the readings', () => {
    const spiked = samples(61, (t) => (t % 5 === 2 ? 4000 : 500 * Math.exp(-0.02 * t)));
    expect(relativeRatePerS(spiked, 160)).toBeCloseTo(-0.02, 2);
    expect(relativeRatePerS(spiked, 160)).toBeLessThan(-0.014);
  });

  test('is unknown of fewer than four readings, and of such at one moment', () => {
    const four = samples(4, (t) => 50 - t);
    expect(relativeRatePerS(four, 104)).toBeLessThan(0);
    expect(relativeRatePerS(four.slice(1), 104)).toBeNull();
    expect(relativeRatePerS(four, 163)).toBeNull();
    expect(
      relativeRatePerS(
        samples(5, (t) => 50 + t, 0),
        101,
      ),
    ).toBeNull();
    const doubled = [...four, ...four].sort((a, b) => a.elapsedS - b.elapsedS);
    expect(relativeRatePerS(doubled, 104)).toBeCloseTo(relativeRatePerS(four, 104) ?? NaN, 3);
  });
});
