/** A leak behind a temperature that comes and goes: cooling metal takes up what came in. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { micronFromPa, paFromMicron } from '../../../../protocol/units.ts';
import type { RisePoint } from '../../../../web/analysis/rise/rise-points.ts';
import { hiddenByTemperature } from '../../../../web/analysis/rise/rise-warming.ts';
import { assessRise } from '../../../../web/analysis/verdict/rise.ts';
import {
  historyOf,
  readingsOf,
  seeded,
  type InventedSensor,
} from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const SENSOR: InventedSensor = {
  ...{ ratePerS: 1, noisePa: 0.05, relativeNoise: 0.003, quantumPa: 0.001, lagS: 1 },
  ...{ spikeShare: 0, gap: null, topPa: 1e5 },
};
/** Vapour in balance with metal, per kelvin near 20 °C (IAPWS R7-97: 2339 Pa at 20 °C, 2488 Pa at 21 °C). */
const WATER_PER_K = Math.log(2488 / 2339);

function judged(
  pressureAt: (heldS: number) => number,
  warmerK: ((heldS: number) => number) | null,
  heldS: number,
) {
  const readings = readingsOf(pressureAt, SENSOR, seeded(3), 0, heldS).map((reading) => ({
    ...reading,
    temperatureC: warmerK === null ? null : 20 + warmerK(reading.elapsedS),
  }));
  const hold = { isolatedS: 0, isMarked: true, isolationSure: true };
  return assessRise(historyOf(readings), hold, DEFAULT_SHEET, heldS);
}

describe('sun that comes and goes', () => {
  /** Within half an hour, about where it stood at isolation. */
  const sunK = (swingK: number, phase: number) => (heldS: number) =>
    swingK * (Math.sin((2 * Math.PI * heldS) / 1800 + phase) - Math.sin(phase));

  test.each(
    [0.6, 1].flatMap((share) =>
      [1, 2].flatMap((swingK) => [0, 0.6, 1.2].map((phase) => ({ share, swingK, phase }))),
    ),
  )(
    'hides a leak above the limit, and there is no pass behind it: $share as water, $swingK K, $phase',
    ({ share, swingK, phase }) => {
      const leakPaPerS = paFromMicron(5.5) / 60;
      expect(leakPaPerS).toBeGreaterThan(DEFAULT_SHEET.leakLimitPaPerS);
      const warmerK = sunK(swingK, phase);
      const leaking = (heldS: number) =>
        (40 + leakPaPerS * heldS) * Math.exp(share * WATER_PER_K * warmerK(heldS));
      for (const heldS of [600, 750, 900])
        expect(judged(leaking, warmerK, heldS).verdict, `${heldS} s`).not.toBe('tight_dry');
    },
  );

  test('keeps a tight system from its pass while it may hide a leak, and says so', () => {
    const tight = (swingK: number) => (heldS: number) =>
      40 * Math.exp(0.15 * WATER_PER_K * sunK(swingK, 0)(heldS));
    const { verdict, reservations, moreS } = judged(tight(2), sunK(2, 0), 500);
    expect({ verdict, reservations, moreS }).toEqual({
      ...{ verdict: 'undecided', reservations: ['temperature'], moreS: 400 },
    });
    expect(judged(tight(0.3), sunK(0.3, 0), 600).verdict).toBe('tight_dry');
  });
});

describe('where no thermometer tells', () => {
  test('a tight system is passed later than where the temperature is seen to stand still, and told why', () => {
    const tight = (heldS: number) => 40 - 3 * Math.exp(-heldS / 60);
    expect(judged(tight, () => 0, 300).verdict).toBe('tight_dry');
    const { verdict, reservations, moreS } = judged(tight, null, 300);
    expect({ verdict, reservations, moreS }).toEqual({
      ...{ verdict: 'undecided', reservations: ['temperature_unknown'], moreS: 600 },
    });
    expect(judged(tight, null, 750).verdict).toBe('tight_dry');
  });

  test.each([
    { times: 1.1, coolsK: 0.8 },
    { times: 1.1, coolsK: 1 },
    { times: 1.2, coolsK: 1 },
  ])(
    'a leak of $times times the limit is not passed while metal cools by $coolsK K',
    ({ times, coolsK }) => {
      const leakPaPerS = times * DEFAULT_SHEET.leakLimitPaPerS;
      const leaking = (heldS: number) =>
        (40 + leakPaPerS * heldS) *
        Math.exp(-WATER_PER_K * coolsK * Math.sin((2 * Math.PI * heldS) / 2000));
      for (const heldS of [240, 270, 300, 330, 360, 420]) {
        expect(judged(leaking, null, heldS).verdict, `${heldS} s`).not.toBe('tight_dry');
      }
    },
  );
});

describe('what a swing could hide', () => {
  const points: RisePoint[] = [10, 110, 210, 310].map((heldS) => ({
    ...{ heldS, pressurePa: 30 + heldS / 100, widthS: 10, count: 10, stepPa: 0, dwellS: 0 },
  }));

  test('is all of the gas as water, from the warmest to the coldest, over the time seen', () => {
    const hidden = (warmedK: readonly number[], fromS: number) =>
      hiddenByTemperature(points, { warmedK }, fromS).paPerS / (0.064 * 33.1);
    expect(hidden([-1, 0.5, 0, -0.2], 0)).toBeCloseTo(1.5 / 310, 12);
    // From 155 s on it has swung more for its length.
    expect(hidden([0, 0.5, -1, -0.2], 0)).toBeCloseTo(0.8 / 155, 12);
    // After a step only what is seen since.
    expect(hidden([-3, 0.5, 0, -0.2], 105)).toBeCloseTo(0.7 / 205, 12);
  });

  test('is what a kelvin could hide where no thermometer tells', () => {
    const unknown = (fromS: number) => hiddenByTemperature(points, { warmedK: null }, fromS);
    expect(unknown(0).isMeasured).toBe(false);
    expect(unknown(0).paPerS / (0.064 * 33.1)).toBeCloseTo(1 / 310, 12);
    expect(unknown(105).paPerS / (0.064 * 33.1)).toBeCloseTo(1 / 205, 12);
  });

  test('is nothing where nothing has been seen', () => {
    const nothing = { paPerS: 0, isMeasured: true };
    expect(hiddenByTemperature([], { warmedK: [] }, 0)).toEqual(nothing);
    expect(hiddenByTemperature(points, { warmedK: [0, 1, 2, 3] }, 310)).toEqual(nothing);
    expect(hiddenByTemperature([], { warmedK: null }, 0).paPerS).toBe(0);
  });

  test('of half a kelvin at 300 micron in a quarter of an hour is less than a micron a minute', () => {
    const long = points.map((point, i) => ({
      ...point,
      heldS: 300 * i,
      pressurePa: paFromMicron(300),
    }));
    const { paPerS } = hiddenByTemperature(long, { warmedK: [0, 0.2, 0.5, 0.4] }, 0);
    expect(60 * micronFromPa(paPerS)).toBeLessThan(1);
  });
});
