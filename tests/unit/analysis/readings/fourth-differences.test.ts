/** How scatter is told to grow with the pressure: by halves, of which equal pressures may fill both. */
import {
  fourthDifferences,
  growth,
  spreadOf,
} from '../../../../web/analysis/readings/fourth-differences.ts';
import { SIGMA_PER_MAD } from '../../../../web/analysis/readings/samples.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

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

describe('fourth differences', () => {
  const series = (count: number, pressureAt: (t: number) => number, stepS = 2) => {
    const elapsedS = Float64Array.from({ length: count }, (_, i) => 10 + i * stepS);
    return { elapsedS, pressurePa: elapsedS.map((t) => pressureAt(t - 10)) };
  };

  test('are none of a cubic, and of t⁴ the same everywhere, whatever the distance', () => {
    for (const lag of [1, 2, 4]) {
      const cubic = fourthDifferences(
        series(40, (t) => 5 - t + t ** 2 / 9 - t ** 3 / 70),
        lag,
        2,
      );
      for (const size of cubic.sizePa) expect(size).toBeCloseTo(0, 6);
      const quartic = fourthDifferences(
        series(40, (t) => t ** 4 / 1000),
        lag,
        2,
      );
      for (const size of quartic.sizePa)
        expect(size).toBeCloseTo((24 * (2 * lag) ** 4) / 1000 / Math.sqrt(70), 6);
    }
  });

  test('have the deviation of a lone error by their weights, about the reading in the middle', () => {
    const { sizePa, pressurePa } = fourthDifferences(
      series(20, (t) => (t === 20 ? 100 : 0)),
      1,
      2,
    );
    // The readings 2 to 17 are in the middle of one; the error is that of the tenth.
    const part = (weight: number) => (100 * weight) / Math.sqrt(70);
    expect(sizePa).toHaveLength(16);
    const expected = [0, 0, 0, 0, 0, 0, 1, 4, 6, 4, 1, 0, 0, 0, 0, 0].map(part);
    for (const [i, size] of sizePa.entries()) expect(size).toBeCloseTo(expected[i] ?? NaN, 9);
    expect([...pressurePa].indexOf(100)).toBe(8);
  });

  test('at wider distances are taken at every half of it', () => {
    const at = (lag: number) =>
      fourthDifferences(
        series(60, (t) => t),
        lag,
        2,
      ).pressurePa;
    expect([...at(1)]).toEqual(Array.from({ length: 56 }, (_, i) => 4 + 2 * i));
    expect([...at(4)]).toEqual(Array.from({ length: 22 }, (_, i) => 16 + 4 * i));
    expect(at(15)).toHaveLength(0);
    expect(at(14).length).toBeGreaterThan(0);
  });

  test('are not taken across a silence, nor of readings that come unevenly', () => {
    const silent = series(40, () => 50);
    const late = { ...silent, elapsedS: silent.elapsedS.map((t, i) => (i >= 20 ? t + 10 : t)) };
    // Those whose five readings lie on both sides of it.
    expect(fourthDifferences(late, 1, 2).sizePa).toHaveLength(36 - 4);
    for (const [shiftS, missing] of [
      [0.5, 0],
      [-0.5, 0],
      [0.7, 5],
      [-0.7, 5],
    ] as const) {
      const moved = silent.elapsedS.map((t, i) => (i === 20 ? t + shiftS : t));
      const found = fourthDifferences({ ...silent, elapsedS: moved }, 1, 2);
      expect(found.sizePa, `${shiftS}`).toHaveLength(36 - missing);
    }
    expect(fourthDifferences(silent, 1, 5).sizePa).toHaveLength(0);
  });
});

describe('the spread', () => {
  const random = seeded(6);
  const sizes = Array.from({ length: 4000 }, () => Math.abs(normal(random)));
  const ones = sizes.map(() => 1);
  const flat = () => 1;

  test('is the variance of what is normal, and in units of what is expected', () => {
    expect(spreadOf(columns(ones, sizes), flat)).toBeGreaterThan(0.9);
    expect(spreadOf(columns(ones, sizes), flat)).toBeLessThan(1.1);
    const pressures = sizes.map((_, i) => (i % 3) + 1);
    const grown = sizes.map((size, i) => size * (pressures[i] ?? 0));
    expect(spreadOf(columns(pressures, grown), (pa) => pa ** 2)).toBeCloseTo(
      spreadOf(columns(ones, sizes), flat),
      9,
    );
    expect(spreadOf(columns([], []), flat)).toBe(0);
  });

  test('is hardly moved by spikes, one in twenty-five', () => {
    const few = sizes.map((size, i) => (i % 25 === 0 ? 1000 : size));
    expect(spreadOf(columns(ones, few), flat)).toBeLessThan(1.3);
  });

  test('of readings that mostly repeat is a quarter of what the others scatter by', () => {
    const stuck = sizes.map((_, i) => (i % 5 === 0 ? 2 : 0));
    // The largest twentieth is left out: 600 of 3800 are 2.
    const trimmed = (4 * 600) / 3800 / 0.759;
    expect(spreadOf(columns(ones, stuck), flat)).toBeCloseTo(trimmed / 4, 9);
  });
});
