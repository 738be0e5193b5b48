/** How scatter is told to grow with the pressure: by halves, of which equal pressures may fill both. */
import { expect, test } from 'vitest';
import { growth } from '../../../web/analysis/fourth-differences.ts';
import { SIGMA_PER_MAD } from '../../../web/analysis/samples.ts';

/** The variance that sizes which are all alike stand for. */
const varianceOf = (sizePa: number) => (SIGMA_PER_MAD * sizePa) ** 2;
const columns = (pressures: readonly number[], sizes: readonly number[]) => ({
  pressurePa: Float64Array.from(pressures),
  sizePa: Float64Array.from(sizes),
});

test('scatter that is three times as large at twice the pressure grows with it', () => {
  const pressures = Array.from({ length: 40 }, (_, i) => (i % 2 === 0 ? 200 : 100));
  const sizes = pressures.map((pressurePa) => (pressurePa === 200 ? 3 : 1));
  const relative2 = (varianceOf(3) - varianceOf(1)) / (200 ** 2 - 100 ** 2);
  const grown = growth(columns(pressures, sizes));
  expect(grown.relative2).toBeCloseTo(Math.min(relative2, varianceOf(3) / 200 ** 2), 12);
  expect(grown.constantPa2).toBeCloseTo(Math.max(varianceOf(3) - relative2 * 200 ** 2, 0), 12);
});

test('of equal pressures the earlier ones make the lower half', () => {
  const pressures = new Array<number>(40).fill(100);
  const sizes = pressures.map((_, i) => (i < 20 ? 1 : 2));
  // Nothing tells growth from a constant: the upper half stands for all.
  expect(growth(columns(pressures, sizes))).toEqual({ constantPa2: varianceOf(2), relative2: 0 });
});

test('what lies at the dividing pressure fills up the lower half, and no more', () => {
  const pressures = [50, 100, 100, 100, 100, 100, 100, 300];
  const sizes = [1, 1, 1, 1, 2, 2, 2, 2];
  expect(growth(columns(pressures, sizes)).constantPa2).toBeCloseTo(varianceOf(2), 12);
});
