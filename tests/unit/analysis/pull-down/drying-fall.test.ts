/** Falls that quicken: what dries up is seen to end. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import { decayData, type DecayData } from '../../../../web/analysis/pull-down/decay-spectrum.ts';
import {
  DRYING_POWERS,
  dryingAt,
  type DryingFit,
  dryingTrials,
  fitDrying,
} from '../../../../web/analysis/pull-down/drying-fall.ts';
import { historyOf, QUIET_SENSOR, readingsOf, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const FLOOR = { log: Math.log(16), spread: 1.3 };
const every10S = (pressureAt: (t: number) => number) =>
  decayData(
    Array.from({ length: 60 }, (_, i) => ({ elapsedS: 10 * i, pressurePa: pressureAt(10 * i) })),
    0.003,
  );

function fitted(data: DecayData, power: number): DryingFit | null {
  const trials = dryingTrials(data, data.logs.length);
  return trials && fitDrying(data, trials, FLOOR, power);
}

describe('a fall that quickens', () => {
  test.each(DRYING_POWERS)(
    'as the time left to the power of %s is followed to its end',
    (power) => {
      const data = every10S((t) => 500 * (1 - t / 900) ** power);
      const fit = fitted(data, power);
      if (fit === null) throw new Error('it quickens');
      // 310 s are left after the last pressure; the grid's steps are of a sixth.
      expect(fit.leftS).toBeGreaterThan(285);
      expect(fit.leftS).toBeLessThan(340);
      const soon = dryingAt(fit, 690);
      const expectedPa = 500 * (1 - 690 / 900) ** power + Math.exp(FLOOR.log);
      expect(Math.exp(soon.log) / expectedPa).toBeCloseTo(1, 1);
      // Once it has gone, what stands below is anybody's guess.
      const gone = dryingAt(fit, 1500);
      expect(gone.log - FLOOR.log).toBeLessThan(0.7);
      expect(gone.sigma).toBeGreaterThan(0.6);
      expect(soon.sigma).toBeLessThan(0.6);
    },
  );

  test('has no end where it stands still, or rises', () => {
    for (const power of DRYING_POWERS) {
      const standing = every10S((t) => 300 - t / 1e4);
      expect(fitted(standing, power)).toBeNull();
      const rising = every10S((t) => 300 + t);
      expect(fitted(rising, power)).toBeNull();
    }
  });
});

describe('the forecast of what dries up', () => {
  const targetPa = DEFAULT_SHEET.targetPa;
  const forecastAt = (pressureAt: (t: number) => number, nowS: number) => {
    const readings = readingsOf(pressureAt, QUIET_SENSOR, seeded(4), 0, nowS);
    return judge(historyOf(readings), [], DEFAULT_SHEET, nowS).forecast?.remaining;
  };

  test.each([
    ['evenly', 1, 1814, 1632],
    ['as a shrinking surface', 2, 1389, 1250],
  ])('that goes %s does not expect a tail', (_, power, reachedS, nowS) => {
    const pressureAt = (t: number) =>
      20 + 1e5 * Math.exp(-t / 20) + 500 * Math.max(0, 1 - t / 2000) ** power;
    expect(pressureAt(reachedS)).toBeCloseTo(targetPa, 0);
    const remaining = forecastAt(pressureAt, nowS);
    const trueS = reachedS - nowS;
    expect(remaining?.p10S).toBeLessThan(trueS);
    expect(remaining?.p50S).toBeLessThan(1.9 * trueS);
    expect(remaining?.p90S).toBeGreaterThan(trueS);
  });

  test('leaves one that decays as it was', () => {
    const decaying = (t: number) => 20 + 1e5 * Math.exp(-t / 20) + 1500 * Math.exp(-t / 500);
    expect(decaying(1736)).toBeCloseTo(targetPa, 0);
    const remaining = forecastAt(decaying, 1562);
    expect((remaining?.p50S ?? 0) / 174).toBeCloseTo(1, 1);
    expect(remaining?.p10S).toBeGreaterThan(140);
  });
});
