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

test('IAPWS-95 table of saturation: 275 K is 698.451167 Pa, within 0.01 %', () => {
  expect(liquidVapourPressurePa(275) / 698.451167).toBeCloseTo(1, 4);
});

test('ice and liquid meet at the triple point, 273.16 K and 611.657 Pa', () => {
  expect(iceVapourPressurePa(273.16)).toBeCloseTo(TRIPLE_POINT_PA, 6);
  expect(liquidVapourPressurePa(273.16)).toBeCloseTo(TRIPLE_POINT_PA, 3);
});

describe('ASHRAE Handbook Fundamentals (Hyland and Wexler), as the package psychrolib has it', () => {
  // The formulations differ by up to 0.05 %.
  test.each([-40, -30, -20, -10, 0, 10, 20, 30, 40])('%d °C', (temperatureC) => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    const theirs = psychrolib.GetSatVapPres(temperatureC);
    expect(Math.abs(waterVapourPressurePa(temperatureC) / theirs - 1)).toBeLessThan(5e-4);
  });
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
