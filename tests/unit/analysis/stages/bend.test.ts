/** The sharp bend in a curve, and the fit that it rests on. */
import { HingeFitter } from '../../../../web/analysis/fitting/hinge-fit.ts';
import type { TimeBin } from '../../../../web/analysis/readings/bin-level.ts';
import { bendIn } from '../../../../web/analysis/stages/bend.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { between, normal, seeded } from '../../../support/invented-curves.ts';
import { linearRegression } from 'simple-statistics';
import { describe, expect, test } from 'vitest';

function traceOf(logAt: (second: number) => number, lengthS: number, sigma: number, seed = 1) {
  const random = seeded(seed);
  const bins: TimeBin[] = Array.from({ length: lengthS }, (_, second) => ({
    elapsedS: second,
    pressurePa: Math.exp(logAt(second) + sigma * normal(random)),
    count: 1,
    overRange: 0,
    temperatureC: null,
  }));
  return new Trace(bins);
}

/** Falling by 2 % a minute, and rising by 3 % from 200 s on. */
const bent = (second: number) => 3.5 + (Math.max(second - 200, 0) * 0.05 - second * 0.02) / 60;

test('a bend is found where it is, with the slopes on both sides', () => {
  for (let seed = 1; seed <= 20; seed += 1) {
    const bend = bendIn(traceOf(bent, 300, 0.004, seed), 0, 300, 1);
    expect(Math.abs((bend?.atS ?? 0) - 200)).toBeLessThan(15);
    expect(Math.abs((bend?.beforePerS ?? 0) + 0.02 / 60)).toBeLessThan(1e-4);
    expect(Math.abs((bend?.afterPerS ?? 0) - 0.03 / 60)).toBeLessThan(1e-4);
    expect(bend?.sharpness).toBeGreaterThan(0);
  }
});

test('the same bend the other way is none upward', () => {
  const trace = traceOf((second) => 7 - bent(second), 300, 0.004);
  expect(bendIn(trace, 0, 300, 1)).toBeNull();
  expect(bendIn(trace, 0, 300, -1)?.atS).toBeGreaterThan(180);
});

test('noise of any memory has none, in a thousand stretches', () => {
  let found = 0;
  for (let seed = 1; seed <= 1000; seed += 1) {
    const random = seeded(seed);
    const memory = between(random, 0, 0.95);
    let slow = 0;
    const noisy = () => {
      slow = memory * slow + Math.sqrt(1 - memory * memory) * normal(random);
      return 3.5 + 0.006 * slow;
    };
    if (bendIn(traceOf(noisy, 200, 0.001, seed), 0, 200, 1)) found += 1;
  }
  expect(found).toBeLessThanOrEqual(10);
});

test('what warmth does in a quarter of an hour is not sharp', () => {
  for (let phase = 0; phase < 1; phase += 0.1) {
    const swing = (second: number) => 3.5 + 0.1 * Math.sin(2 * Math.PI * (second / 900 + phase));
    const bend = bendIn(traceOf(swing, 400, 0.003), 0, 400, 1);
    expect(bend?.sharpness ?? 0).toBeLessThan(9);
  }
});

test('a spike is gone, and a step stays', () => {
  const spiked = traceOf((second) => (second === 50 ? 4.5 : 3.5), 100, 0);
  expect(spiked.log(50)).toBeCloseTo(Math.log(Math.exp(3.5) + 0.5), 6);
  const stepped = traceOf((second) => (second < 50 ? 3.5 : 4.5), 100, 0);
  expect(stepped.log(49)).toBeCloseTo(Math.log(Math.exp(3.5) + 0.5), 6);
  expect(stepped.log(50)).toBeCloseTo(Math.log(Math.exp(4.5) + 0.5), 6);
});

test('a line by sums is the line of an independent library', () => {
  const trace = traceOf(bent, 300, 0.004);
  const { perS, mean } = trace.line(40, 90);
  const points = Array.from({ length: 50 }, (_, i) => [trace.timeS(40 + i), trace.log(40 + i)]);
  expect(perS).toBeCloseTo(linearRegression(points).m, 10);
  expect(mean).toBeCloseTo(
    points.reduce((sum, [, y]) => sum + (y ?? 0) / 50, 0),
    10,
  );
});

test('the fit of all places at once gains what each place gains by itself', () => {
  const random = seeded(5);
  const count = 30;
  const fitter = new HingeFitter(count);
  for (let i = 0; i < count; i += 1) {
    fitter.x[i] = i / (count - 1);
    fitter.y[i] = normal(random) + (i > 17 ? (i - 17) / 3 : 0);
  }
  fitter.prepare(count);
  const found = fitter.sharpest(2, count - 3, 1);
  if (!found) throw new Error('no hinge');
  const into = new Float64Array(count);
  fitter.curve(found, into);
  const left = into.reduce((sum, fitted, i) => sum + ((fitter.y[i] ?? 0) - fitted) ** 2, 0);
  expect(fitter.rest - found.gain).toBeCloseTo(left, 9);
  // No small change of the fitted curve's parts makes it better.
  const at = fitter.x[found.place] ?? 0;
  const parts = [
    () => 1,
    (x: number) => x,
    (x: number) => x * x,
    (x: number) => Math.max(x - at, 0),
  ];
  for (const part of parts) {
    for (const by of [-1e-3, 1e-3]) {
      const other = into.reduce(
        (sum, fitted, i) => sum + ((fitter.y[i] ?? 0) - fitted - by * part(fitter.x[i] ?? 0)) ** 2,
        0,
      );
      expect(other).toBeGreaterThan(left);
    }
  }
});

describe('what is told of a bend', () => {
  /** Half a pascal is added before the logarithm: undone here, so that ln P is what is asked for. */
  const exactly = (logAt: (second: number) => number, lengthS = 300) =>
    new Trace(
      Array.from({ length: lengthS }, (_, second) => ({
        ...{ elapsedS: second, count: 1, overRange: 0, temperatureC: null },
        pressurePa: Math.exp(logAt(second)) - 0.5,
      })),
    );
  const bendOf = (logAt: (second: number) => number, sign: 1 | -1 = 1, lengthS = 300) => {
    const bend = bendIn(exactly(logAt, lengthS), 0, lengthS, sign);
    if (bend === null) throw new Error('no bend');
    return bend;
  };
  const hinge = (second: number) => 5 - 0.002 * second + 0.004 * Math.max(second - 200, 0);

  test('is what a curve of two straight lines has', () => {
    const bend = bendOf(hinge);
    expect(Math.abs(bend.atS - 200)).toBeLessThan(4);
    expect(bend.lengthS).toBe(299);
    expect(Math.abs(bend.beforePerS + 0.002)).toBeLessThan(1e-4);
    expect(Math.abs(bend.afterPerS - 0.002)).toBeLessThan(1e-4);
    expect(bend.log).toBeCloseTo(4.6, 1);
    // To the middle of the last group.
    expect(bend.since).toBeGreaterThan(0.18);
    expect(bend.since).toBeLessThan(0.2);
    expect(bend.sigmas).toBeGreaterThan(20);
    expect(bend.sharpness).toBeGreaterThan(20);
    expect(bend.dip).toBeLessThan(0.005);
  });

  test('is the same of a stretch amid others', () => {
    const trace = exactly((second) => (second < 100 ? 9 : hinge(second - 100)), 500);
    const [amid, alone] = [bendIn(trace, 100, 400, 1), bendOf(hinge)];
    expect(amid?.atS).toBeCloseTo(alone.atS + 100, 6);
    expect(amid?.sigmas).toBeCloseTo(alone.sigmas, 4);
    expect(amid?.since).toBeCloseTo(alone.since, 9);
  });

  test('is infinitely sharp over less than three minutes, where a gentle one is a parabola', () => {
    const short = (second: number) => 5 - 0.002 * second + 0.004 * Math.max(second - 100, 0);
    expect(bendOf(short, 1, 160).sharpness).toBe(Infinity);
    expect(bendOf(short, 1, 210).sharpness).toBeLessThan(Infinity);
  });

  test('tells a fall that was steady from one that slowed down', () => {
    expect(bendOf(hinge).steadyBefore).toBe(true);
    const slowing = (second: number) =>
      5 + 0.15 * Math.exp(-Math.min(second, 200) / 120) + 0.006 * Math.max(second - 200, 0);
    expect(bendOf(slowing).steadyBefore).toBe(false);
    const rising = (second: number) => -hinge(second) + 12;
    expect(bendOf(rising, -1).steadyBefore).toBe(true);
  });

  test('tells how far it has been on the other side since', () => {
    const dipped = (second: number) => hinge(second) - (second > 203 && second < 213 ? 0.03 : 0);
    expect(bendOf(dipped).dip).toBeGreaterThan(0.005);
    expect(bendOf(dipped).dip).toBeLessThan(0.03);
    const other = (second: number) => 12 - dipped(second);
    expect(bendOf(other, -1).dip).toBeCloseTo(bendOf(dipped).dip, 2);
  });

  test('tells the smallest step of the display, as a part of the highest reading', () => {
    const stepped = new Trace(
      Array.from({ length: 300 }, (_, second) => ({
        ...{ elapsedS: second, count: 1, overRange: 0, temperatureC: null },
        pressurePa: Math.round(Math.exp(hinge(second)) / 0.4) * 0.4,
      })),
    );
    const highestPa = Math.round(Math.exp(5) / 0.4) * 0.4;
    expect(bendIn(stepped, 0, 300, 1)?.stepShare).toBeCloseTo(0.4 / highestPa, 4);
  });

  test('is less sure the longer the noise stays on one side', () => {
    const wavy = (periodS: number) => (second: number) =>
      hinge(second) + 0.01 * Math.sin((2 * Math.PI * second) / periodS);
    // Groups are six seconds long: the same scatter of them, by turns or over several.
    expect(bendOf(wavy(14)).sigmas).toBeGreaterThan(2 * bendOf(wavy(80)).sigmas);
  });
});
