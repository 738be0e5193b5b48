/** The curve as the stages are read from: without spikes, with lines through any stretch, and the same however it came. */
import type { TimeBin } from '../../../../web/analysis/readings/bin-level.ts';
import { BinLevel } from '../../../../web/analysis/readings/bin-level.ts';
import { fallPerS, filledBy, mostPaPerS } from '../../../../web/analysis/stages/filling.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const bin = (elapsedS: number, pressurePa: number | null): TimeBin => {
  return { elapsedS, pressurePa, count: 1, overRange: 0, temperatureC: null };
};
const binsOf = (pressureAt: (t: number) => number | null, count: number, stepS = 1) =>
  Array.from({ length: count }, (_, n) => bin(n * stepS, pressureAt(n * stepS)));
const traceOf = (pressureAt: (t: number) => number | null, count: number, stepS = 1) =>
  new Trace(binsOf(pressureAt, count, stepS));

describe('a trace', () => {
  test('has the readings that are in range, and nothing beyond the last', () => {
    const trace = new Trace([bin(5, 100), bin(6, null), bin(7, 80)]);
    expect(trace.length).toBe(2);
    expect([0, 1, 2].map((i) => trace.timeS(i))).toEqual([5, 7, 0]);
    expect([0, 1, 2].map((i) => trace.pressurePa(i))).toEqual([100, 80, 0]);
    // Half a pascal is added: a reading of none is no abyss.
    expect(trace.log(0)).toBeCloseTo(Math.log(100.5), 12);
    expect(new Trace([bin(0, -1)]).log(0)).toBeCloseTo(Math.log(0.5), 12);
  });

  test('finds the first reading later than a moment', () => {
    const trace = traceOf(() => 50, 10, 2);
    expect([-1, 0, 1, 2, 17, 18, 99].map((t) => trace.firstAfter(t))).toEqual([
      0, 1, 1, 2, 9, 10, 10,
    ]);
    expect(new Trace([]).firstAfter(5)).toBe(0);
  });

  test('has straight lines through any stretch, as least squares have them', () => {
    const random = seeded(4);
    const trace = traceOf((t) => 50 * Math.exp(-t / 200 + 0.002 * normal(random)), 200);
    for (const [from, to] of [
      [0, 200],
      [10, 40],
      [150, 155],
    ] as const) {
      const places = Array.from({ length: to - from }, (_, n) => from + n);
      const meanT = places.reduce((sum, i) => sum + trace.timeS(i), 0) / places.length;
      const mean = places.reduce((sum, i) => sum + trace.log(i), 0) / places.length;
      const spread = places.reduce((sum, i) => sum + (trace.timeS(i) - meanT) ** 2, 0);
      const shared = places.reduce(
        (sum, i) => sum + (trace.timeS(i) - meanT) * (trace.log(i) - mean),
        0,
      );
      const line = trace.line(from, to);
      expect(line.count).toBe(places.length);
      expect(line.mean).toBeCloseTo(mean, 9);
      expect(line.spreadS2).toBeCloseTo(spread, 5);
      expect(line.perS).toBeCloseTo(shared / spread, 9);
    }
    expect(trace.line(5, 6)).toMatchObject({
      perS: 0,
      count: 1,
      mean: expect.closeTo(trace.log(5), 9),
    });
  });

  test('leaves a spike out, and keeps a step', () => {
    const spiky = traceOf((t) => (t === 50 ? 80 : 40 - 0.01 * t), 100);
    expect(spiky.log(50)).toBeCloseTo(Math.log(40), 1);
    expect(spiky.pressurePa(50)).toBe(80);
    const step = traceOf((t) => (t < 50 ? 40 : 80), 100);
    expect(step.log(49)).toBeCloseTo(Math.log(40.5), 9);
    expect(step.log(50)).toBeCloseTo(Math.log(80.5), 9);
    const small = traceOf((t) => (t === 50 ? 41.1 : 40), 100);
    expect(small.log(50)).toBeCloseTo(Math.log(41.6), 9);
    const two = traceOf((t) => (t === 50 || t === 51 ? 80 : 40), 100);
    expect(Math.max(two.log(50), two.log(51))).toBeLessThan(Math.log(45));
  });

  test('what is usual goes by the noise: in a coarse sensor’s readings less is a spike', () => {
    const random = seeded(8);
    const noisy = traceOf((t) => (t === 150 ? 46 : 40) * Math.exp(0.04 * normal(random)), 200);
    expect(Math.exp(noisy.log(150))).toBeCloseTo(noisy.pressurePa(150) + 0.5, 6);
  });

  test('knows the scatter of its readings', () => {
    for (const sigma of [0.003, 0.02]) {
      const random = seeded(6);
      const trace = traceOf((t) => 500 * Math.exp(-t / 500 + sigma * normal(random)), 400);
      expect(trace.scatter(399) / sigma).toBeGreaterThan(0.6);
      expect(trace.scatter(399) / sigma).toBeLessThan(1.4);
    }
  });

  test('is the same to the digit whether its readings came at once or by and by, with others in their place', () => {
    const anyPressures = fc.array(fc.option(fc.double({ min: 1, max: 1000, noNaN: true })), {
      minLength: 1,
      maxLength: 90,
    });
    fc.assert(
      fc.property(anyPressures, anyPressures, fc.nat(90), (before, after, kept) => {
        const bins = (pressures: readonly (number | null)[], from: number) =>
          pressures.map((pressurePa, n) => bin(from + n, pressurePa));
        const first = bins(before, 0);
        const seen = first.filter(({ pressurePa }) => pressurePa !== null);
        const count = Math.min(kept, seen.length);
        const trace = new Trace(first);
        const later = bins(after, 200);
        trace.replaceFrom(count, later);
        const anew = new Trace([...seen.slice(0, count), ...later]);
        expect(trace.length).toBe(anew.length);
        for (let i = 0; i <= anew.length; i += 1) {
          expect(trace.timeS(i)).toBe(anew.timeS(i));
          expect(trace.log(i)).toBe(anew.log(i));
          expect(trace.scatter(i)).toBe(anew.scatter(i));
        }
        expect(trace.line(0, trace.length)).toEqual(anew.line(0, anew.length));
      }),
    );
  });
});

describe('what is let in', () => {
  const PUMPED = { heldSinceS: null, fallPerS: 0.02 };

  test('rises from its foot, faster than any leak that a pump held', () => {
    const trace = traceOf((t) => (t <= 100 ? 30 : 30 + 400 * (t - 100)), 110);
    const filled = filledBy(trace, 108, { nowS: 109, topPa: 3630 }, PUMPED);
    expect(filled).toMatchObject({ sinceS: 100, footPa: 30, lowestPa: 30, fast: true });
  });

  test('is none where it comes in as slowly as the pump could have pulled', () => {
    // Four times 30 Pa · 0.02/s are 2.4 Pa/s.
    const rising = (perS: number) => traceOf((t) => (t <= 100 ? 30 : 30 + perS * (t - 100)), 160);
    const fast = (perS: number, before = PUMPED) =>
      filledBy(rising(perS), 158, { nowS: 159, topPa: 30 + 59 * perS }, before).fast;
    expect([2.2, 2.9].map((perS) => fast(perS))).toEqual([false, true]);
    expect(fast(2.9, { ...PUMPED, fallPerS: 0.03 })).toBe(false);
    expect(fast(2.2, { ...PUMPED, fallPerS: 0 })).toBe(false);
    expect(fast(2.9, { ...PUMPED, fallPerS: 0.001 })).toBe(true);
    expect(mostPaPerS(30, 0.05)).toBeCloseTo(6, 12);
  });

  test('in a hold is what rises eight times as fast as that did, once it is under way', () => {
    const held = (perS: number) =>
      traceOf((t) => (t <= 200 ? 30 + 0.1 * t : 50 + perS * (t - 200)), 230);
    const fast = (perS: number, heldSinceS: number) =>
      filledBy(
        held(perS),
        228,
        { nowS: 229, topPa: 50 + 29 * perS },
        { heldSinceS, fallPerS: 0.02 },
      ).fast;
    // 0.1 Pa/s of 50 Pa, eight times, and 2 % of it a second: 1.8 Pa/s.
    expect([1.6, 2].map((perS) => fast(perS, 0))).toEqual([false, true]);
    expect(fast(2, 150)).toBe(false);
  });

  test('has its foot within a minute and a half, where it became steep', () => {
    const trace = traceOf((t) => (t <= 150 ? 20 + 0.2 * t : 50 + 300 * (t - 150)), 160);
    const { sinceS, lowestPa } = filledBy(trace, 158, { nowS: 159, topPa: 2750 }, PUMPED);
    expect(sinceS).toBe(150);
    expect(lowestPa).toBeCloseTo(20 + 0.2 * 69, 6);
  });

  test('a fall is one from a fifth on, over the last seconds', () => {
    const falling = (perS: number) => traceOf((t) => 1e4 * Math.exp(-perS * t), 20);
    expect(fallPerS(falling(0.1), 19)).toBeCloseTo(0.1, 3);
    expect(fallPerS(falling(0.04), 19)).toBe(0);
    expect(fallPerS(falling(0.1), 0)).toBe(0);
    expect(
      fallPerS(
        traceOf((t) => 10 + t, 20),
        19,
      ),
    ).toBe(0);
  });
});

describe('bins of readings', () => {
  test('hold the mean without the smallest and the largest, at the mean time', () => {
    const level = new BinLevel(2);
    for (const [elapsedS, pressurePa, temperatureC] of [
      [10.5, 50, 20],
      [11, 30, null],
      [11.5, 90, 22],
      [12, 40, null],
    ] as const) {
      level.insert(elapsedS, pressurePa, temperatureC);
    }
    expect(level.binFrom(10)).toEqual({
      ...{
        elapsedS: 11.25,
        pressurePa: expect.closeTo(45, 9),
        count: 4,
        overRange: 0,
        temperatureC: 21,
      },
    });
    expect(level.binFrom(12)).toBeNull();
    expect(level.binFrom(8)).toBeNull();
  });

  test('of one or two readings are their mean; over range is counted apart', () => {
    const level = new BinLevel(1);
    level.insert(1, 30, null);
    level.insert(0.5, 50, null);
    level.insert(0.7, null, 25);
    expect(level.binFrom(0)).toMatchObject({
      pressurePa: 40,
      count: 2,
      overRange: 1,
      temperatureC: 25,
    });
    level.insert(3.5, null, null);
    expect(level.binFrom(3)).toEqual({
      ...{ elapsedS: 3.5, pressurePa: null, count: 0, overRange: 1, temperatureC: null },
    });
  });

  test('are found across silences of any length', () => {
    const level = new BinLevel(1);
    const moments = [3.5, 90_000.5, 7000.5];
    for (const t of moments) level.insert(t, 40, null);
    const occupied = (startS: number) => level.nextOccupiedS(startS);
    expect(occupied(3)).toBe(3);
    expect(occupied(6000)).toBeLessThanOrEqual(7000);
    expect(occupied(6000)).toBeGreaterThan(6000);
    expect(occupied(20_000)).toBeLessThanOrEqual(90_000);
    expect(occupied(20_000)).toBeGreaterThan(89_000);
    expect(occupied(200_000)).toBe(Infinity);
    expect(level.binFrom(7000)?.elapsedS).toBe(7000.5);
    expect(level.bytes).toBeGreaterThan(0);
    expect(level.bytes).toBeLessThan(3 * 40 * 1024);
  });
});
