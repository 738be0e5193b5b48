/** What readings and prior say of a spectrum of decays: the gradient is the slope of the cost, and a fit goes along with the curve. */
import { fitDecay } from '../../../../web/analysis/pull-down/decay-fit.ts';
import {
  curvatureOf,
  gradientOf,
  look,
  priorOf,
  StateRoom,
} from '../../../../web/analysis/pull-down/decay-posterior.ts';
import {
  decayData,
  GRID_STEP,
  logPressureAt,
} from '../../../../web/analysis/pull-down/decay-spectrum.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const FLOOR = { log: Math.log(5), spread: 2 };
const pointsOf = (pressureAt: (t: number) => number, count = 60, stepS = 10, sigma = 0) => {
  const random = seeded(5);
  return Array.from({ length: count }, (_, n) => ({
    elapsedS: 100 + n * stepS,
    pressurePa: pressureAt(n * stepS) * Math.exp(sigma * normal(random)),
  }));
};
const TAIL = (t: number) => 3000 / (1 + t / 20) + 4;

describe('the prior', () => {
  const data = decayData(pointsOf(TAIL), 0.01);
  const size = data.tausS.length + 1;
  const prior = priorOf(data, 60, FLOOR);
  const costAt = (a: readonly number[]) => {
    let sum = 0;
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < size; j += 1)
        sum += (a[i] ?? 0) * (prior.precision[i * size + j] ?? 0) * (a[j] ?? 0);
      sum -= 2 * (prior.linear[i] ?? 0) * (a[i] ?? 0);
    }
    return sum;
  };

  test('is symmetric, and likeliest for a tail of the expected slope through the last reading', () => {
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < size; j += 1) {
        expect(prior.precision[i * size + j]).toBe(prior.precision[j * size + i]);
      }
    }
    const middle = (size - 1) >> 1;
    const last = data.logs[59] ?? 0;
    const best = Array.from({ length: size }, (_, k) =>
      k === size - 1 ? FLOOR.log : last - 0.8 * Math.log(GRID_STEP) * (k - middle),
    );
    const least = costAt(best);
    for (let k = 0; k < size; k += 1) {
      for (const off of [-0.1, 0.1]) {
        expect(costAt(best.map((a, i) => (i === k ? a + off : a)))).toBeGreaterThan(least);
      }
    }
  });

  test('lets an amplitude wander by e³ per e-fold of time, the size by e⁶, and the floor as was said', () => {
    const zero = new Array<number>(size).fill(0);
    const with1 = (k: number, value: number) => zero.map((_, i) => (i === k ? value : 0));
    const curvature = (k: number) => costAt(with1(k, 1)) + costAt(with1(k, -1)) - 2 * costAt(zero);
    const perStep = 1 / (9 * Math.log(GRID_STEP));
    expect(curvature(size - 1)).toBeCloseTo(2 / FLOOR.spread ** 2, 9);
    expect(curvature(0)).toBeCloseTo(2 * perStep, 9);
    expect(curvature(1)).toBeCloseTo(4 * perStep, 9);
    expect(curvature((size - 1) >> 1)).toBeCloseTo(4 * perStep + 2 / 36, 9);
    expect(curvature(size - 2)).toBeCloseTo(2 * perStep, 9);
  });
});

describe('the posterior', () => {
  const data = decayData(pointsOf(TAIL, 61, 10, 0.02), 0.02);
  const size = data.tausS.length + 1;

  test.each([61, 40])(
    'of the first %d readings: its gradient is half of its cost’s slope downward',
    (count) => {
      const prior = priorOf(data, count, FLOOR);
      const room = new StateRoom();
      const amplitudes = Array.from({ length: size }, (_, k) => 5 - 0.3 * k + Math.sin(k));
      const costAt = (change: number, at: number) => {
        const state = room.state(size, count);
        state.amplitudes.set(amplitudes.map((a, k) => (k === at ? a + change : a)));
        look(data, prior, state);
        return state.cost;
      };
      const state = new StateRoom().state(size, count);
      state.amplitudes.set(amplitudes);
      look(data, prior, state);
      const gradient = new Float64Array(size);
      gradientOf(data, state, gradient);
      for (let k = 0; k < size; k += 1) {
        const slope = (costAt(1e-4, k) - costAt(-1e-4, k)) / 2e-4;
        expect(Math.abs((gradient[k] ?? 0) + slope / 2)).toBeLessThan(1e-3 * (1 + Math.abs(slope)));
      }
      let square = 0;
      for (let row = 0; row < count; row += 1) {
        let sum = 0;
        for (let k = 0; k < size; k += 1) {
          sum +=
            Math.exp(amplitudes[k] ?? 0) *
            (k < size - 1 ? Math.exp(-(10 * row) / (data.tausS[k] ?? 1)) : 1);
        }
        square += ((data.logs[row] ?? 0) - Math.log(sum)) ** 2;
      }
      expect(state.misfit).toBeCloseTo(square / 0.02 ** 2, 3);
    },
  );

  test.each([61, 40])(
    'of the first %d readings: its curvature is that of shares by shares',
    (count) => {
      const prior = priorOf(data, count, FLOOR);
      const state = new StateRoom().state(size, count);
      state.amplitudes.set(Array.from({ length: size }, (_, k) => 4 - 0.2 * k));
      look(data, prior, state);
      const curvature = new Float64Array(size * size);
      curvatureOf(data, prior, state, curvature);
      for (let i = 0; i < size; i += 1) {
        for (let j = 0; j < size; j += 1) {
          let sum = 0;
          for (let row = 0; row < count; row += 1) {
            sum += (state.shares[i * count + row] ?? 0) * (state.shares[j * count + row] ?? 0);
          }
          const expected = sum / 0.02 ** 2 + (prior.precision[i * size + j] ?? 0);
          expect(curvature[i * size + j]).toBeCloseTo(expected, 4);
        }
      }
      for (let row = 0; row < count; row += 1) {
        let sum = 0;
        for (let k = 0; k < size; k += 1) sum += state.shares[k * count + row] ?? 0;
        expect(sum).toBeCloseTo(1, 9);
      }
    },
  );
});

describe('a fit', () => {
  const fitted = (pressureAt: (t: number) => number, sigma = 0.005, count = 60) => {
    const data = decayData(pointsOf(pressureAt, count, 10, sigma), Math.max(sigma, 0.002));
    const fit = fitDecay(data, count, FLOOR);
    if (fit === null) throw new Error('there is a fit');
    return { data, fit };
  };

  test.each([
    ['a tail', TAIL],
    ['an exponential', (t: number) => 2000 * Math.exp(-t / 150) + 6],
    ['a floor', () => 40],
    ['two decays', (t: number) => 800 * Math.exp(-t / 30) + 200 * Math.exp(-t / 400) + 3],
  ])(
    'goes along with the readings of %s, to within what it says it may be off',
    (_what, pressureAt) => {
      const { fit } = fitted(pressureAt);
      for (let t = 0; t <= 590; t += 10) {
        const { log, sigma } = logPressureAt(fit, t);
        expect(Math.abs(log - Math.log(pressureAt(t)))).toBeLessThan(0.02 + 8 * sigma);
        expect(sigma).toBeLessThan(0.3);
      }
      expect(fit.inflation).toBeGreaterThanOrEqual(1);
    },
  );

  test('is the less sure the further it looks ahead, and holds what comes', () => {
    const { fit } = fitted(TAIL);
    const sigmas = [590, 900, 2000, 6000].map((t) => logPressureAt(fit, t).sigma);
    expect(sigmas).toEqual([...sigmas].sort((a, b) => a - b));
    for (const t of [900, 1500]) {
      const { log, sigma } = logPressureAt(fit, t);
      expect(Math.abs(log - Math.log(TAIL(t)))).toBeLessThan(3 * sigma);
    }
  });

  test('of fewer readings uses those alone', () => {
    const [first, second] = [TAIL, (t: number) => (t < 400 ? TAIL(t) : 1e4)].map((pressureAt) => {
      const data = decayData(pointsOf(pressureAt), 0.01);
      return fitDecay(data, 40, FLOOR)?.logAmplitudes;
    });
    expect(second).toEqual(first);
  });

  test('says so where the readings are less certain than they claim', () => {
    const data = decayData(
      pointsOf(() => 40, 60, 10, 0.05),
      0.005,
    );
    expect(fitDecay(data, 60, FLOOR)?.inflation).toBeGreaterThan(30);
  });

  test('from a like fit comes to the same curve', () => {
    const { data, fit } = fitted(TAIL);
    const again = fitDecay(data, 60, FLOOR, fit.logAmplitudes);
    if (again === null) throw new Error('there is a fit');
    expect(logPressureAt(again, 300).log).toBeCloseTo(logPressureAt(fit, 300).log, 2);
  });

  test('of no numbers is none', () => {
    const data = decayData(
      pointsOf(() => Number.NaN),
      0.01,
    );
    expect(fitDecay(data, 60, FLOOR)).toBeNull();
  });
});
