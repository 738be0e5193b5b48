/** What makes a hold no ordinary rise: that it falls, that it evens out first, that much of it was not seen. */
import type { RisePoint } from '../../../../web/analysis/rise/rise-points.ts';
import { evenedAfterS, hasGap, isFalling } from '../../../../web/analysis/rise/rise-signs.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const point = (heldS: number, pressurePa: number): RisePoint => ({
  ...{ heldS, pressurePa, widthS: 1, count: 1, stepPa: 0, dwellS: 0 },
});
/** Every ten seconds. */
const curve = (count: number, pressureAt: (heldS: number) => number) =>
  Array.from({ length: count }, (_, i) => point(10 * (i + 1), pressureAt(10 * (i + 1))));

describe('a hold that falls', () => {
  const noisy = (slopePaPerS: number, sigmaPa: number, count = 40) => {
    const random = seeded(5);
    return curve(count, (heldS) => 100 + slopePaPerS * heldS + sigmaPa * normal(random));
  };

  test('does so beyond its noise, and by a fiftieth over its latter half', () => {
    expect(isFalling(noisy(-0.03, 0.1))).toBe(true);
    expect(isFalling(noisy(0.03, 0.1))).toBe(false);
    expect(isFalling(noisy(0, 0.1))).toBe(false);
    // 2 Pa in the latter 200 s are a fiftieth, and 1 Pa is half of that, however sure.
    expect(isFalling(noisy(-0.012, 0.001))).toBe(true);
    expect(isFalling(noisy(-0.005, 0.001))).toBe(false);
    // As steep, and lost in the noise.
    expect(isFalling(noisy(-0.03, 12))).toBe(false);
  });

  test('does so in its latter half: what fell at first may have evened out', () => {
    expect(isFalling(curve(40, (heldS) => (heldS < 190 ? 200 - heldS / 2 : 105)))).toBe(false);
    expect(isFalling(curve(40, (heldS) => (heldS < 210 ? 105 : 150 - heldS / 5)))).toBe(true);
  });

  test('is not told by fewer than eight points of that half', () => {
    // Of 14 points the latter half are those from 70 s on: eight.
    expect(isFalling(curve(14, (heldS) => 100 - heldS))).toBe(true);
    expect(isFalling(curve(13, (heldS) => 200 - heldS))).toBe(false);
    expect(isFalling([])).toBe(false);
  });

  test('stands five standard errors below level, and not where it is four', () => {
    const wiggle = (slopePaPerS: number) =>
      curve(81, (heldS) => 100 + slopePaPerS * (heldS - 600) + ((heldS / 10) % 2 === 0 ? 3 : -3));
    // The latter 41 points: Σ(t − mean)² = 41 · 1680/12 · 100 s², residuals of 3 Pa.
    const error = (3 * Math.sqrt(41 / 39)) / Math.sqrt((41 * 1680 * 100) / 12);
    expect(isFalling(wiggle(-4.5 * error))).toBe(false);
    expect(isFalling(wiggle(-6 * error))).toBe(true);
  });
});

describe('evening out', () => {
  const settling = (sizePa: number, leakPaPerS: number) =>
    curve(60, (heldS) => 50 + sizePa * Math.exp(-heldS / 40) + leakPaPerS * heldS);

  test('takes until nine tenths of the first fall are over', () => {
    // 0.1 of it is left after 40 s · ln 10 = 92 s from the first point on.
    expect(evenedAfterS(settling(20, 0))).toBeGreaterThan(80);
    expect(evenedAfterS(settling(20, 0))).toBeLessThan(120);
    expect(evenedAfterS(settling(20, 0.02))).toBeLessThan(120);
  });

  test('is none of a rise, and of a fall of less than a two-hundredth', () => {
    expect(evenedAfterS(curve(60, (heldS) => 50 + 0.01 * heldS))).toBe(0);
    expect(evenedAfterS(curve(60, () => 50))).toBe(0);
    expect(evenedAfterS(settling(0.25, 0))).toBe(0);
    expect(evenedAfterS(settling(0.4, 0))).toBeGreaterThan(0);
    expect(evenedAfterS([])).toBe(0);
    // Nor of a sensor that shows nothing at all.
    expect(evenedAfterS(curve(60, () => 0))).toBe(0);
  });

  test('is none where readings go up and down by as much all the time', () => {
    const wave = (sizePa: number) =>
      settling(sizePa, 0).map((each, i) => ({ ...each, pressurePa: each.pressurePa + (i & 2) }));
    expect(evenedAfterS(wave(0))).toBe(0);
    expect(evenedAfterS(wave(1))).toBe(0);
    expect(evenedAfterS(wave(8))).toBeGreaterThan(50);
  });

  test('begins at the highest, where the pressure rises first', () => {
    const over = [30, 40, 50, 60, 59, 58, 57, 56, 55, 54, 53, 52, 51, 50, 50, 50, 50, 50];
    const points = over.map((pressurePa, i) => point(10 * (i + 1), pressurePa));
    // It first rises to 60: what is lowest comes before, and nothing fell before that.
    expect(evenedAfterS(points)).toBe(0);
    const lower = over.map((pressurePa, i) => point(10 * (i + 1), pressurePa - (i > 8 ? 30 : 0)));
    // From 60 down to 20: nine tenths are over below 24, which is from 110 s on.
    expect(evenedAfterS(lower)).toBe(110);
  });

  test('is not ended by a single low reading', () => {
    const spiked = settling(20, 0).map((each, i) => (i === 2 ? { ...each, pressurePa: 5 } : each));
    expect(evenedAfterS(spiked)).toBeGreaterThan(80);
  });
});

describe('a gap', () => {
  const at = (...times: readonly number[]) => times.map((heldS) => point(heldS, 50));

  test('is a silence of more than half a minute and of a fifth of the hold', () => {
    expect(hasGap(at(10, 20, 55, 65), 70)).toBe(true);
    expect(hasGap(at(10, 20, 50, 60), 70)).toBe(false);
    expect(hasGap(at(10, 20, 55, 100, 140, 175), 180)).toBe(true);
    expect(hasGap(at(40, 80, 120, 160, 200, 240), 280)).toBe(false);
  });

  test('counts from the valve on, and up to now', () => {
    expect(hasGap(at(40, 50, 60), 70)).toBe(true);
    expect(hasGap(at(10, 20, 30), 70)).toBe(true);
    expect(hasGap([], 31)).toBe(true);
    expect(hasGap([], 30)).toBe(false);
  });
});
