/** How well a law foretold what came, and how far it is believed for that. */
import type { DecayData } from '../../../../web/analysis/pull-down/decay-spectrum.ts';
import { believed, tryOut } from '../../../../web/analysis/pull-down/foretold.ts';
import { describe, expect, test } from 'vitest';

/** ln P falls by a hundredth a second from 5, each second. */
const falls = (timeS: number) => 5 - timeS / 100;
const data: DecayData = {
  timesS: Float64Array.from({ length: 100 }, (_, i) => i),
  logs: Float64Array.from({ length: 100 }, (_, i) => falls(i)),
  sigma: 0.03,
  tausS: [],
  basis: new Float64Array(0),
};
/** A law that says so much too much, and how sure it is. */
const off = (by: number, sigma: number) => () => (timeS: number) => ({
  log: falls(timeS) + by,
  sigma,
});

describe('a trial', () => {
  test('is by how much it missed, in terms of what is believed of its spread', () => {
    // 0.55 · 0.04/0.55 = 0.04 and the data's 0.03: 0.05 together.
    const tried = tryOut(data, off(0.1, 0.04 / 0.55), [70, 88]);
    expect(tried?.meanSquare).toBeCloseTo(4, 9);
    const spread = Math.hypot(0.04 / 0.55, 0.03);
    expect(tried?.logDensity).toBeCloseTo(-0.5 * (0.1 / spread) ** 2 - Math.log(spread), 9);
  });

  test('counts what is off by more than four as four', () => {
    expect(tryOut(data, off(9, 0.001), [70])?.meanSquare).toBeCloseTo(16, 9);
    const spread = Math.hypot(0.001, 0.03);
    expect(tryOut(data, off(-9, 0.001), [70])?.logDensity).toBeCloseTo(-8 - Math.log(spread), 9);
  });

  test('is none without a cut that leaves something to fit and to foretell, or without a fit', () => {
    expect(tryOut(data, off(0, 0.01), [])).toBeNull();
    expect(tryOut(data, off(0, 0.01), [7, 100])).toBeNull();
    expect(tryOut(data, off(0, 0.01), [8])).not.toBeNull();
    expect(tryOut(data, () => null, [70])).toBeNull();
  });

  test('asks the law that was fitted up to the cut', () => {
    const counts: number[] = [];
    const fitted = (count: number) => {
      counts.push(count);
      return off(0, 0.01)();
    };
    tryOut(data, fitted, [70, 88]);
    expect(counts).toEqual([70, 88]);
  });
});

describe('what is believed', () => {
  const at = off(0, 0.1)();
  const sigmaAt = (meanSquare: number | null, timeS: number) =>
    believed(at, meanSquare === null ? null : { logDensity: 0, meanSquare }, 100)(timeS).sigma;

  test('is the law itself, and the less of its spread the better it has foretold', () => {
    expect(believed(at, null, 100)(130).log).toBe(at(130).log);
    expect(sigmaAt(null, 100)).toBeCloseTo(0.055, 9);
    expect(sigmaAt(0, 100)).toBeCloseTo(0.055 * Math.sqrt(0.05), 9);
    expect(sigmaAt(4, 100)).toBeCloseTo(0.055 * Math.sqrt(6.05), 9);
  });

  test('leaves room for another law, the more the farther it goes beyond what was seen', () => {
    const other = (timeS: number) => Math.sqrt(sigmaAt(0, timeS) ** 2 - sigmaAt(0, 100) ** 2);
    // Half as long again: the fall is 0.5, of which half of a twentieth; then a whole one.
    // What lies between two decays of the grid comes on top.
    expect(other(150)).toBeCloseTo((0.015 + 0.05 * 0.5) * 0.5, 9);
    expect(other(200)).toBeCloseTo((0.015 + 0.05) * 1, 9);
    expect(other(300)).toBeCloseTo((0.015 + 0.05) * 2, 9);
  });
});
