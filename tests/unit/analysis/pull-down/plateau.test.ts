/** Where water may boil or stand, and when a plateau is over. */
import { TRIPLE_POINT_PA, waterVapourPressurePa } from '../../../../protocol/water.ts';
import {
  boilOffEvidence,
  isInBoilingRange,
  mayBeWater,
  mayStandOnIce,
  mayStandOnWarmIce,
  mayStandOnWater,
  plateauEndS,
  plateauMayCome,
  waterShare,
} from '../../../../web/analysis/pull-down/plateau.ts';
import { describe, expect, test } from 'vitest';

const perMinute = (share: number) => share / 60;

describe('evidence for boiling', () => {
  test('is full on a flat stretch, none on a fall, and between them by halves', () => {
    expect(boilOffEvidence(TRIPLE_POINT_PA, 0)).toBe(1);
    expect(boilOffEvidence(TRIPLE_POINT_PA, perMinute(0.01))).toBe(1);
    expect(boilOffEvidence(TRIPLE_POINT_PA, perMinute(0.0375))).toBeCloseTo(0.5, 9);
    expect(boilOffEvidence(TRIPLE_POINT_PA, perMinute(0.06))).toBe(0);
    expect(boilOffEvidence(TRIPLE_POINT_PA, perMinute(0.5))).toBe(0);
  });

  test('is as much on a rise: metal that warms lifts the plateau', () => {
    for (const rate of [0.01, 0.03, 0.05, 0.2]) {
      expect(boilOffEvidence(400, -perMinute(rate))).toBe(boilOffEvidence(400, perMinute(rate)));
    }
  });

  test('is none where no water boils by itself', () => {
    expect(boilOffEvidence(waterVapourPressurePa(10), 0)).toBe(0);
    expect(boilOffEvidence(waterVapourPressurePa(-25), 0)).toBe(0);
  });
});

test('each range begins and ends where the vapour pressure says', () => {
  const rangesAt = (temperatureC: number) => {
    const pressurePa = waterVapourPressurePa(temperatureC);
    return {
      boils: isInBoilingRange(pressurePa),
      above: plateauMayCome(pressurePa),
      water: mayBeWater(pressurePa),
      onWater: mayStandOnWater(pressurePa),
      onWarmIce: mayStandOnWarmIce(pressurePa),
      onIce: mayStandOnIce(pressurePa),
    };
  };
  const none = {
    ...{ boils: false, above: false, water: false },
    ...{ onWater: false, onWarmIce: false, onIce: false },
  };
  const ice = { ...none, onIce: true };
  expect(rangesAt(-21)).toEqual(none);
  expect(rangesAt(-19)).toEqual(ice);
  expect(rangesAt(-15)).toEqual({ ...ice, boils: true, water: true });
  expect(rangesAt(-9)).toEqual({ ...ice, boils: true, water: true, onWarmIce: true });
  const wet = { ...ice, boils: true, water: true, onWarmIce: true, onWater: true };
  expect(rangesAt(-4)).toEqual(wet);
  expect(rangesAt(2)).toEqual(wet);
  expect(rangesAt(5)).toEqual({ ...wet, boils: false, above: true });
  expect(rangesAt(24)).toEqual({ ...wet, boils: false, above: true });
  expect(rangesAt(26)).toEqual({ ...wet, boils: false, above: true, water: false });
});

describe('the share of curves on which water has to boil away first', () => {
  const DEPTH_PA = 10;
  const FALLING = { isBoiling: false, flatness: 0 };
  const BOILING = { isBoiling: true, flatness: 0 };

  test('is all where it boils, and less the less the pressure speaks for it', () => {
    const [boils, above, within, onIce, below] = [
      waterShare(600, DEPTH_PA, BOILING),
      waterShare(5000, DEPTH_PA, FALLING),
      waterShare(600, DEPTH_PA, FALLING),
      waterShare(120, DEPTH_PA, FALLING),
      waterShare(60, DEPTH_PA, FALLING),
    ];
    expect(boils).toBe(1);
    expect(above).toBeLessThan(boils);
    expect(within).toBeLessThan(above);
    expect(onIce).toBeLessThan(within);
    expect(onIce).toBeGreaterThan(0);
    expect(below).toBe(0);
  });

  test('goes to nothing next to the depth that is asked for, by its logarithm', () => {
    expect(waterShare(600, 600 / Math.sqrt(Math.E), BOILING)).toBeCloseTo(0.5, 12);
    for (const pressurePa of [5000, 600, 120]) {
      const half = waterShare(pressurePa, pressurePa / Math.sqrt(Math.E), FALLING);
      expect(half).toBeCloseTo(waterShare(pressurePa, 1, FALLING) / 2, 12);
      expect(waterShare(pressurePa, pressurePa, FALLING)).toBe(0);
      expect(waterShare(pressurePa, 2 * pressurePa, FALLING)).toBe(0);
    }
    expect(waterShare(600, 900, BOILING)).toBe(0);
  });

  test('is more the flatter the curve is, down to ice at −23 °C, however near the depth is', () => {
    const flat = (pressurePa: number, flatness: number, depthPa = 66.7) =>
      waterShare(pressurePa, depthPa, { isBoiling: false, flatness });
    const ice = [-23, -20, -17, -14].map((celsius) => waterVapourPressurePa(celsius));
    for (const icePa of ice) {
      expect(flat(icePa, 1)).toBe(0.6);
      expect(flat(icePa, 0.5)).toBeCloseTo(0.3, 12);
      expect(flat(icePa, 1, 0.99 * icePa)).toBe(0.6);
      expect(flat(icePa, 1, icePa)).toBe(0);
    }
    // Below that a flat curve is held to be a floor, and above the plateau to be gas.
    expect(flat(waterVapourPressurePa(-23.5), 1)).toBe(0);
    expect(flat(5000, 1, 4999)).toBeLessThan(0.01);
  });
});

describe('the end of the latest plateau', () => {
  const every10 = (pressures: readonly number[]) =>
    pressures.map((pressurePa, i) => ({ elapsedS: 100 + 10 * i, pressurePa }));
  const falling = (fromPa: number, count: number) =>
    Array.from({ length: count }, (_, i) => fromPa * 0.8 ** i);

  test('is the last point that ends a flat stretch in the range of boiling', () => {
    const points = every10([...falling(3000, 8), ...[600, 600, 600, 600, 600], 300, 120, 60, 30]);
    // Points 8 to 12 stand still.
    expect(plateauEndS(points)).toBe(220);
    expect(plateauEndS(points.slice(0, 12))).toBe(210);
  });

  test('is none of a fall, of half a minute that is not whole, and of a floor below', () => {
    expect(plateauEndS(every10(falling(3000, 30)))).toBeNull();
    expect(plateauEndS(every10([600, 600, 600]))).toBeNull();
    expect(plateauEndS(every10([600, 600, 600, 600]))).toBe(130);
    expect(plateauEndS(every10([40, 40, 40, 40, 40, 40]))).toBeNull();
    expect(plateauEndS([])).toBeNull();
  });

  test('of two is that of the later one', () => {
    const twice = [...[900, 700, 650, 650, 650, 650], ...[400, 300, 300, 300, 300], 150, 50, 20];
    expect(plateauEndS(every10(twice))).toBe(200);
  });
});
