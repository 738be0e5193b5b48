import { describe, expect, it } from 'vitest';
import { atmosphereAtHeightPa } from '../../protocol/standard-atmosphere.ts';

describe('the standard atmosphere', () => {
  // U.S. Standard Atmosphere 1976, table by geopotential height, as several public test suites have
  // it; by true height the pressures are up to 0.01 % higher here (79 501 Pa at 2000 m).
  it.each([
    [0, 101_325],
    [1000, 89_874.6],
    [2000, 79_495.2],
    [5000, 54_019.9],
  ])('at %d m has %f Pa', (heightM, pressurePa) => {
    expect(Math.abs(atmosphereAtHeightPa(heightM) / pressurePa - 1)).toBeLessThan(1e-5);
  });
});
