/** How fast free gas leaves, and whether water alone can stand as high: what both must keep to. */
import { waterVapourPressurePa } from '../../../../protocol/water.ts';
import { fallRatePerS } from '../../../../web/analysis/flows/fall-rate.ts';
import { vapourCheck } from '../../../../web/analysis/flows/vapour-check.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const samplesOf = (pressureAt: (t: number) => number, count = 100, fromS = 50) =>
  Array.from({ length: count }, (_, t) => ({
    ...{ elapsedS: fromS + t, pressurePa: pressureAt(t), count: 1 },
  }));

describe('the rate of a fall', () => {
  test('lies in its interval nine times in ten, whatever the scatter', () => {
    for (const sigma of [0.003, 0.03]) {
      const held = Array.from({ length: 20 }, (_, seed) => {
        const random = seeded(seed + 1);
        const found = fallRatePerS(
          samplesOf((t) => (20 + 2000 * Math.exp(-0.04 * t)) * (1 + sigma * normal(random))),
        );
        return found !== null && found.low <= 0.04 && 0.04 <= found.high;
      }).filter(Boolean).length;
      // Of 20 at 90 %: 18, with a standard deviation of 1.3.
      expect(held, String(sigma)).toBeGreaterThan(14);
    }
  });

  test('is not narrower than noise allows, nor twenty times as wide', () => {
    const random = seeded(2);
    const found = fallRatePerS(
      samplesOf((t) => 2000 * Math.exp(-0.04 * t) * (1 + 0.01 * normal(random)) + 20),
    );
    const width = Math.log((found?.high ?? NaN) / (found?.low ?? NaN));
    expect(width).toBeGreaterThan(1e-3);
    expect(width).toBeLessThan(0.05);
    // Equal to either side in its logarithm.
    const middle = Math.sqrt((found?.low ?? NaN) * (found?.high ?? NaN));
    expect((found?.estimate ?? 0) / middle).toBeCloseTo(1, 9);
  });

  test('is the same at any time of day, and in any unit of pressure', () => {
    const curve = (t: number) => 30 + 3000 * Math.exp(-0.03 * t);
    const rate = fallRatePerS(samplesOf(curve))?.estimate ?? NaN;
    expect(fallRatePerS(samplesOf(curve, 100, 86_400))?.estimate).toBeCloseTo(rate, 9);
    const tenfold = fallRatePerS(samplesOf((t) => 10 * curve(t)))?.estimate ?? NaN;
    expect(tenfold / rate).toBeCloseTo(1, 4);
  });

  test('has no floor below nothing: where one would fit better there is none', () => {
    // By itself it would go to −300 Pa at 0.01/s; from 1000 to 178 Pa in 100 s it is 0.0173/s on average.
    const found = fallRatePerS(samplesOf((t) => -300 + 1300 * Math.exp(-0.01 * t), 101));
    expect(found?.estimate).toBeGreaterThan(0.013);
    expect(found?.estimate).toBeLessThan(0.02);
  });

  test('is none of a moment, nor of what stands still', () => {
    const moment = samplesOf((t) => 1000 - t).map((sample) => ({ ...sample, elapsedS: 50 }));
    expect(fallRatePerS(moment)).toBeNull();
    expect(fallRatePerS(samplesOf((t) => 1000 * Math.exp(0.01 * t)))).toBeNull();
  });
});

describe('water at the temperature of the metal', () => {
  const at = (times: number, metalC = 20) =>
    vapourCheck(metalC, times * waterVapourPressurePa(metalC));

  test('stands about there within half as much again, to either side', () => {
    expect([0.6, 0.7, 1, 1.45, 1.55].map((times) => at(times).outcome)).toEqual([
      ...['below', 'near', 'near', 'near', 'above'],
    ]);
    // As much for ice.
    expect([0.6, 0.7, 1.45, 1.55].map((times) => at(times, -15).outcome)).toEqual([
      ...['below', 'near', 'near', 'above'],
    ]);
  });

  test('is told with what it was compared to', () => {
    // Water at 20 °C: 2339 Pa (IAPWS).
    expect(vapourCheck(20, 300)).toMatchObject({ metalC: 20, standsPa: 300 });
    expect(vapourCheck(20, 300).vapourPa).toBeCloseTo(2339, -1);
  });
});
