/** Of how much of a curve a floor is told, and between which pressures it lies. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { levelOf } from '../../../../web/analysis/pull-down/levelling.ts';
import { describe, expect, test } from 'vitest';

const { targetPa } = DEFAULT_SHEET;
const everySecond = (curve: (elapsedS: number) => number, fromS: number, toS: number) =>
  Array.from({ length: toS - fromS }, (_, i) => {
    const elapsedS = fromS + i + 1;
    return { elapsedS, pressurePa: curve(elapsedS) };
  });

describe('a floor is told', () => {
  test('only where most of the last six tenths of the age was seen', () => {
    const flat = () => 95;
    // Of the 720 s before 1200 s: 500, and 600.
    expect(levelOf(everySecond(flat, 700, 1200), 0, targetPa)).toBeNull();
    expect(levelOf(everySecond(flat, 480, 1200), 0, targetPa)?.high).toBe(95);
    expect(levelOf([], 0, targetPa)).toBeNull();
  });

  test('after three minutes, and by the age of the rig as it is', () => {
    const flat = () => 95;
    expect(levelOf(everySecond(flat, 0, 175), 0, targetPa)).toBeNull();
    expect(levelOf(everySecond(flat, 0, 212), 0, targetPa)).toBeNull();
    expect(levelOf(everySecond(flat, 0, 222), 0, targetPa)).not.toBeNull();
    // Changed 100 s ago it is that old.
    expect(levelOf(everySecond(flat, 500, 600), 500, targetPa)).toBeNull();
    expect(levelOf(everySecond(flat, 500, 1100), 500, targetPa)).not.toBeNull();
  });

  test('above the target, at it there is none', () => {
    const level = (pressurePa: number) =>
      levelOf(
        everySecond(() => pressurePa, 0, 1200),
        0,
        targetPa,
      );
    expect(level(targetPa)).toBeNull();
    expect(level(targetPa * 1.01)?.high).toBeCloseTo(targetPa * 1.01, 9);
  });
});

describe('a floor lies', () => {
  test('between where a power of time comes to in eight hours, and where it is', () => {
    const power = 0.06;
    const level = levelOf(
      everySecond((t) => 95 * (t / 700) ** -power, 0, 700),
      0,
      targetPa,
    );
    const inEightHoursPa = 95 * (28_800 / 700) ** -power;
    expect(level?.high).toBeCloseTo(95, 1);
    expect((level?.low ?? 0) / inEightHoursPa).toBeCloseTo(1, 2);
    // Half way in its logarithm.
    expect((level?.estimate ?? 0) / Math.sqrt(95 * inEightHoursPa)).toBeCloseTo(1, 2);
  });

  test('where it is, where it stands still', () => {
    const level = levelOf(
      everySecond(() => 95, 0, 900),
      0,
      targetPa,
    );
    for (const pressurePa of [level?.low, level?.estimate, level?.high]) {
      expect(pressurePa).toBeCloseTo(95, 6);
    }
  });
});
