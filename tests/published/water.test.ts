/** Vapour pressure of water and ice against the verification values that IAPWS prints. */
import * as psychrolib from 'psychrolib';
import { describe, expect, test } from 'vitest';
import {
  boilingPointC,
  iceVapourPressurePa,
  liquidVapourPressurePa,
  TRIPLE_POINT_PA,
  waterVapourPressurePa,
} from '../../protocol/water.ts';

describe('IAPWS R7-97(2012)', () => {
  test.each([
    [300, 0.353658941e-2],
    [500, 0.263889776e1],
    [600, 0.123443146e2],
  ])('Table 35: saturation pressure at %d K', (temperatureK, megapascal) => {
    expect((liquidVapourPressurePa(temperatureK) / 1e6).toPrecision(9)).toBe(
      megapascal.toPrecision(9),
    );
  });

  test.each([
    [0.1, 372.755919],
    [1, 453.035632],
    [10, 584.149488],
  ])('Table 36: saturation temperature at %d MPa', (megapascal, temperatureK) => {
    expect(boilingPointC(megapascal * 1e6) + 273.15).toBeCloseTo(temperatureK, 6);
  });
});

test('IAPWS R14-08(2011), Table 3: sublimation pressure at 230 K is 8.94735 Pa', () => {
  expect(iceVapourPressurePa(230)).toBeCloseTo(8.94735, 5);
});

// IAPWS R14-08, recomputed with the Debian package python3-iapws 1.5.3.
test.each([
  [180, 0.00539278],
  [250, 76.0127],
  [273, 603.646],
])('IAPWS R14-08: over ice at %d K %d Pa', (temperatureK, pressurePa) => {
  expect(Math.abs(iceVapourPressurePa(temperatureK) / pressurePa - 1)).toBeLessThan(1e-6);
});

// IAPWS-95, table 8, which is another formulation: the two differ by up to 0.02 %.
test.each([
  [275, 698.451167],
  [450, 0.932203564e6],
  [625, 16.9082693e6],
])('IAPWS-95 table of saturation: %d K is %d Pa', (temperatureK, pressurePa) => {
  expect(Math.abs(liquidVapourPressurePa(temperatureK) / pressurePa - 1)).toBeLessThan(2e-4);
});

describe('Wagner and Pruss, IAPWS SR1-86(1992), written down anew', () => {
  const A = [-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502] as const;
  const wagnerPa = (temperatureK: number): number => {
    const t = 1 - temperatureK / 647.096;
    const sum =
      A[0] * t +
      A[1] * t ** 1.5 +
      A[2] * t ** 3 +
      A[3] * t ** 3.5 +
      A[4] * t ** 4 +
      A[5] * t ** 7.5;
    return 22.064e6 * Math.exp((647.096 / temperatureK) * sum);
  };

  test('gives its published value at 400 K', () => {
    expect(wagnerPa(400) / 245_765.263541822).toBeCloseTo(1, 12);
  });

  test('agrees within 0.02 % from freezing to boiling', () => {
    for (let temperatureK = 273.16; temperatureK < 374; temperatureK += 2.5) {
      const ratio = liquidVapourPressurePa(temperatureK) / wagnerPa(temperatureK);
      expect(Math.abs(ratio - 1), `${temperatureK} K`).toBeLessThan(2e-4);
    }
  });
});

test('printed tables (CRC Handbook 1992-93): within 0.06 %', () => {
  const printed = [
    [10, 1228.1],
    [20, 2338.8],
    [25, 3169.0],
    [30, 4245.5],
    [40, 7381.4],
  ] as const;
  for (const [temperatureC, pressurePa] of printed) {
    const ratio = waterVapourPressurePa(temperatureC) / pressurePa;
    expect(Math.abs(ratio - 1), `${temperatureC} °C`).toBeLessThan(6e-4);
  }
});

test('ice and liquid meet at the triple point, 273.16 K and 611.657 Pa', () => {
  expect(iceVapourPressurePa(273.16)).toBeCloseTo(TRIPLE_POINT_PA, 6);
  expect(liquidVapourPressurePa(273.16)).toBeCloseTo(TRIPLE_POINT_PA, 3);
});

describe('ASHRAE Handbook Fundamentals (Hyland and Wexler), as the package psychrolib has it', () => {
  // The formulations differ by up to 0.05 %.
  test.each([-60, -50, -40, -30, -20, -10, -5, 0, 5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100])(
    '%d °C',
    (temperatureC) => {
      psychrolib.SetUnitSystem(psychrolib.SI);
      const theirs = psychrolib.GetSatVapPres(temperatureC);
      expect(Math.abs(waterVapourPressurePa(temperatureC) / theirs - 1)).toBeLessThan(5e-4);
    },
  );
});

test('boiling point and vapour pressure undo one another, across the triple point', () => {
  for (let temperatureC = -60; temperatureC <= 100; temperatureC += 0.7) {
    expect(boilingPointC(waterVapourPressurePa(temperatureC))).toBeCloseTo(temperatureC, 6);
  }
});

test('refuses what the equations do not describe', () => {
  expect(() => boilingPointC(0)).toThrow(RangeError);
  expect(() => boilingPointC(Number.NaN)).toThrow(RangeError);
  expect(() => liquidVapourPressurePa(270)).toThrow(RangeError);
  expect(() => iceVapourPressurePa(280)).toThrow(RangeError);
});
