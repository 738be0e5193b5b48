/** What single stretches of readings tell: a power of time, the steps of a display, decays. */
import { decayData, logPressureAt } from '../../../../web/analysis/pull-down/decay-spectrum.ts';
import type { PullDownPoint } from '../../../../web/analysis/pull-down/pull-down-points.ts';
import { exponentOf, TailSlopes } from '../../../../web/analysis/pull-down/tail-exponent.ts';
import { displaySteps } from '../../../../web/analysis/readings/display-steps.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const pointsAt = (
  moments: readonly number[],
  pressureAt: (afterS: number) => number,
  sinceS = 50,
) =>
  moments.map((afterS): PullDownPoint => ({
    elapsedS: sinceS + afterS,
    pressurePa: pressureAt(afterS),
  }));
const every = (stepS: number, count: number, fromS = stepS) =>
  Array.from({ length: count }, (_, n) => fromS + n * stepS);

describe('the power of time by which the pressure falls', () => {
  test.each([0, 0.5, 1, 2.5])('a pressure like t^−%d has that one, without error', (power) => {
    const points = pointsAt(every(10, 60), (afterS) => 900 * afterS ** -power);
    const found = exponentOf(points, 50, 300);
    expect(found?.value).toBeCloseTo(power, 6);
    expect(found?.error).toBeLessThan(1e-4);
  });

  test('is that of the latest stretch alone', () => {
    const points = pointsAt(every(10, 60), (afterS) =>
      afterS < 290 ? 1e6 / afterS ** 2 : 1e6 / 290 ** 2,
    );
    expect(exponentOf(points, 50, 300)?.value).toBeCloseTo(0, 6);
    expect(exponentOf(points, 50, 590)?.value).toBeGreaterThan(0.5);
    expect(new TailSlopes(points, 50).until(25, 200)?.value).toBeCloseTo(2, 6);
  });

  test('is as uncertain as a straight line through scattered points', () => {
    const random = seeded(7);
    const scatter = 0.02;
    const points = pointsAt(
      every(10, 60),
      (afterS) => 900 * afterS ** -0.7 * Math.exp(scatter * normal(random)),
    );
    const found = exponentOf(points, 50, 600);
    const logs = points.map(({ elapsedS }) => Math.log(elapsedS - 50));
    const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
    const spread = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0);
    const expected = scatter / Math.sqrt(spread);
    expect((found?.error ?? 0) / expected).toBeGreaterThan(0.8);
    expect((found?.error ?? 0) / expected).toBeLessThan(1.25);
    expect(Math.abs((found?.value ?? 0) - 0.7)).toBeLessThan(3 * expected);
  });

  test('is not told by five points, nor where most of the stretch was not seen', () => {
    expect(
      exponentOf(
        pointsAt(every(10, 5), () => 5),
        50,
        50,
      ),
    ).toBeNull();
    expect(
      exponentOf(
        pointsAt(every(10, 6), () => 5),
        50,
        60,
      ),
    ).not.toBeNull();
    const late = pointsAt(every(10, 20, 400), () => 5);
    // 190 s were seen.
    expect(exponentOf(late, 50, 270)).not.toBeNull();
    expect(exponentOf(late, 50, 275)).toBeNull();
    expect(exponentOf([], 50, 60)).toBeNull();
  });

  test('counts nothing of before the pump began', () => {
    const before = pointsAt([-30, -20, -10, 0], () => 1e5);
    const points = [...before, ...pointsAt(every(10, 20), (afterS) => 900 / afterS)];
    expect(exponentOf(points, 50, 195)?.value).toBeCloseTo(1, 6);
    expect(exponentOf(points, 50, 240)?.value).toBeCloseTo(1, 6);
  });
});

describe('the steps of a display', () => {
  const seen = (count: number, intervalS: number, pressureAt: (t: number) => number) => {
    const elapsedS = Float64Array.from({ length: count }, (_, n) => 1000 + n * intervalS);
    return { elapsedS, pressurePa: elapsedS.map((t) => pressureAt(t - 1000)) };
  };
  const stepped = (stepPa: number) => (pressurePa: number) =>
    Math.round(pressurePa / stepPa) * stepPa;

  test('are found where the reading stays within one, with how long it stays', () => {
    const [steps, ...more] = displaySteps(seen(60, 1, (t) => stepped(1.5)(30 + 0.15 * t)));
    expect(more).toEqual([]);
    expect(steps?.untilS).toBe(Infinity);
    expect(steps?.stepPa).toBeCloseTo(1.5, 9);
    // A step each ten seconds.
    expect(steps?.dwellS).toBeGreaterThan(7);
    expect(steps?.dwellS).toBeLessThan(11);
  });

  test('are none where every reading is another one', () => {
    expect(displaySteps(seen(60, 1, (t) => 30 + 0.15 * t))).toEqual([
      { untilS: Infinity, stepPa: 0, dwellS: 0 },
    ]);
  });

  test('are none where a tenth of the readings repeats, by chance', () => {
    const [steps] = displaySteps(seen(60, 1, (t) => 30 + (t % 10 === 1 ? t - 1 : t)));
    expect(steps?.stepPa).toBe(0);
  });

  test('of a reading that never moved are not known, and taken for a fiftieth of it', () => {
    const [steps] = displaySteps(seen(60, 2, () => 40));
    expect(steps?.stepPa).toBeCloseTo(0.8, 9);
    expect(steps?.dwellS).toBe(118);
  });

  test('may be coarser further up: each forty readings tell for themselves', () => {
    const fine = stepped(0.5);
    const coarse = stepped(5);
    const found = displaySteps(
      seen(110, 1, (t) => (t < 40 ? fine(30 + 0.1 * t) : coarse(60 + 0.5 * t))),
    );
    expect(found.map(({ untilS }) => untilS)).toEqual([1039, Infinity]);
    expect(found[0]?.stepPa).toBeCloseTo(0.5, 9);
    expect(found[1]?.stepPa).toBeCloseTo(5, 9);
  });

  test('of no readings are none', () => {
    expect(displaySteps(seen(0, 1, () => 1))).toEqual([]);
  });
});

describe('decays', () => {
  const points = pointsAt(every(5, 100, 0), (afterS) => 100 * Math.exp(-afterS / 60) + 5);
  const data = decayData(points, 0.01);

  test('are from a 64th of what was seen to forty times that, each 1.8 times the one before', () => {
    const lengthS = 495;
    expect(data.tausS[0]).toBeCloseTo(lengthS / 64, 9);
    for (const [n, tauS] of data.tausS.entries()) {
      if (n > 0) expect(tauS / (data.tausS[n - 1] ?? 1)).toBeCloseTo(1.8, 9);
    }
    expect(data.tausS.at(-1)).toBeLessThan(40 * lengthS);
    expect((data.tausS.at(-1) ?? 0) * 1.8).toBeGreaterThanOrEqual(40 * lengthS);
  });

  test('begin at one with the first reading, and the inflow that never ends stays there', () => {
    const { tausS, basis, timesS, logs, sigma } = data;
    expect(sigma).toBe(0.01);
    expect([timesS[0], timesS[99]]).toEqual([0, 495]);
    expect(logs[0]).toBeCloseTo(Math.log(105), 9);
    expect(basis).toHaveLength(100 * (tausS.length + 1));
    for (const [k, tauS] of tausS.entries()) {
      expect(basis[k * 100]).toBe(1);
      expect(basis[k * 100 + 99]).toBeCloseTo(Math.exp(-495 / tauS), 9);
    }
    expect([...basis.slice(-100)].every((value) => value === 1)).toBe(true);
  });

  test('add up to a pressure, as sure as its largest parts', () => {
    const fit = {
      logAmplitudes: Float64Array.of(Math.log(100), Math.log(5)),
      // Deviations 1/10 and 1/4, without correlation.
      factor: Float64Array.of(10, 0, 0, 4),
      inflation: 4,
      tausS: [60],
    };
    for (const timeS of [0, 60, 300, 1e5]) {
      const decayed = 100 * Math.exp(-timeS / 60);
      const share = decayed / (decayed + 5);
      const { log, sigma } = logPressureAt(fit, timeS);
      expect(log).toBeCloseTo(Math.log(decayed + 5), 9);
      expect(sigma).toBeCloseTo(2 * Math.hypot(share / 10, (1 - share) / 4), 9);
    }
    // With what the two have in common: A = LLᵀ, variance bᵀA⁻¹b at b = (½, ½).
    const shared = { ...fit, factor: Float64Array.of(1, 0, 1, 1), inflation: 1 };
    const even = { ...shared, logAmplitudes: Float64Array.of(0, 0) };
    expect(logPressureAt(even, 0).sigma).toBeCloseTo(Math.hypot(0.5, 0), 9);
  });

  test('of one reading alone, or of none, are still finite', () => {
    expect(decayData(points.slice(0, 1), 0.01).tausS.every((tauS) => tauS > 0 && tauS < 40)).toBe(
      true,
    );
    expect(decayData([], 0.01).logs).toHaveLength(0);
  });
});
