/** Laws of chance that the judge rests on, against their own integrals. */
import { CutAtZero, logShareAbove } from '../../../../web/analysis/fitting/truncated-normal.ts';
import {
  densityOf,
  overAfterS,
  overBy,
  stillOn,
} from '../../../../web/analysis/pull-down/scale-free.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

describe('what lasts, of which only its age is known', () => {
  const law = { ageS: 100, leastS: 20, times: 1.5, isSeen: true };

  test('is over as likely as not once it has lasted so many times its age beyond the least', () => {
    expect(overBy(law, 170)).toBeCloseTo(0.5, 12);
    expect(overAfterS(law, 0.5)).toBeCloseTo(170, 9);
  });

  test('is never over before the least, and surely at last', () => {
    expect([overBy(law, 0), overBy(law, 20)]).toEqual([0, 0]);
    expect(overBy(law, 21)).toBeGreaterThan(0);
    expect(overBy(law, 1e6)).toBeGreaterThan(0.9999);
  });

  test('below its middle it is wider than Gott’s law, and above it narrower', () => {
    // By Gott it is over by half of the middle with 1/3, and by its double with 2/3.
    expect(overBy(law, 20 + 75)).toBeGreaterThan(1 / 3);
    expect(overBy(law, 20 + 300)).toBeGreaterThan(2 / 3);
    expect(overBy(law, 20 + 75)).toBeCloseTo(0.5 ** 0.4 / (1 + 0.5 ** 0.4), 12);
    expect(overBy(law, 20 + 300)).toBeCloseTo(2 ** 2.2 / (1 + 2 ** 2.2), 12);
  });

  test('while nothing is seen it is Gott’s law: eight of ten between a ninth and nine times the middle', () => {
    const unseen = { ...law, leastS: 0, isSeen: false };
    expect(overAfterS(unseen, 0.1)).toBeCloseTo(150 / 9, 9);
    expect(overAfterS(unseen, 0.5)).toBeCloseTo(150, 9);
    expect(overAfterS(unseen, 0.9)).toBeCloseTo(150 * 9, 9);
    expect(overBy(unseen, 150 / 9)).toBeCloseTo(0.1, 12);
    expect(overBy(unseen, 150 * 9)).toBeCloseTo(0.9, 12);
  });

  test('times and probabilities are one another’s inverse', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.99, noNaN: true }), (probability) => {
        expect(overBy(law, overAfterS(law, probability))).toBeCloseTo(probability, 9);
      }),
    );
  });

  test('Gott’s own law: what is still on is what the density has left beyond', () => {
    expect(stillOn(100, 1, 100)).toBe(0.5);
    expect(stillOn(100, 1, 900)).toBeCloseTo(0.1, 12);
    expect(stillOn(100, 3, 300)).toBe(0.5);
    const step = 0.01;
    let left = 0;
    for (let log = Math.log(250); log < Math.log(1e9); log += step) {
      left += step * densityOf(100, 3, Math.exp(log + step / 2));
    }
    expect(left).toBeCloseTo(stillOn(100, 3, 250), 4);
  });
});

describe('a normal distribution cut off at zero', () => {
  /** Share and mean of what is above zero, by sums. */
  const summed = (z: number) => {
    const step = 1e-3;
    let [share, first] = [0, 0];
    for (let x = step / 2; x < Math.max(z, 0) + 9; x += step) {
      const density = Math.exp(-0.5 * (x - z) ** 2) / Math.sqrt(2 * Math.PI);
      share += density * step;
      first += density * step * x;
    }
    return { share, mean: first / share };
  };

  test.each([-6, -3, -2.01, -2, -1, -0.3, 0, 0.3, 1, 2, 2.01, 3, 6])('with its mean at %d', (z) => {
    const cut = new CutAtZero();
    cut.take(z);
    const { share, mean } = summed(z);
    expect(Math.abs(Math.exp(cut.logShare()) / share - 1)).toBeLessThan(3e-3);
    expect(Math.abs((z + cut.lift) / mean - 1)).toBeLessThan(2e-2);
    expect(logShareAbove(z)).toBe(cut.logShare());
  });

  test('near its mean it is known to seven digits', () => {
    // Φ(1) = 0.841 344 746, Φ(−1) = 0.158 655 254 (Abramowitz and Stegun, table 26.1).
    expect(Math.exp(logShareAbove(1))).toBeCloseTo(0.841344746, 6);
    expect(Math.exp(logShareAbove(-1))).toBeCloseTo(0.158655254, 6);
    expect(logShareAbove(0)).toBeCloseTo(Math.log(0.5), 6);
  });

  test('far below zero it is finite, and lifts to just above zero', () => {
    const cut = new CutAtZero();
    cut.take(-100);
    expect(cut.logShare()).toBeLessThan(-5000);
    expect(Number.isFinite(cut.logShare())).toBe(true);
    expect(-100 + cut.lift).toBeGreaterThan(0);
    expect(-100 + cut.lift).toBeLessThan(0.02);
  });

  test('takes one mean after another', () => {
    const cut = new CutAtZero();
    for (const z of [-1, 2, -3]) cut.take(z);
    expect(cut.logShare()).toBe(logShareAbove(-3));
  });
});
