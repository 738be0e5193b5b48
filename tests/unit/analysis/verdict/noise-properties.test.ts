/** More noise in the readings never makes the judge surer of itself, on average. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import {
  historyOf,
  inventPullDown,
  inventSensor,
  pullDownPressure,
  readingsOf,
  seeded,
  type InventedSensor,
} from '../../../support/invented-curves.ts';
import { jobSession, type JobSession } from '../../../support/job-sessions.ts';
import { describe, expect, test } from 'vitest';

const SHEET = DEFAULT_SHEET;

describe('more noise', () => {
  const JOBS = 36;
  const NOISE = [1, 4] as const;

  function widthsOf(widthOf: (job: JobSession) => number | null): (number | null)[][] {
    return Array.from({ length: JOBS }, (_, seed) =>
      NOISE.map((times) => widthOf(jobSession(seed, (sensor) => louder(sensor, times)))),
    );
  }

  /** The mean at each size of noise, over the jobs that have a width at every size. */
  function meansOf(widths: readonly (readonly (number | null)[])[]): number[] {
    const known = widths.filter((row) => row.every((width) => width !== null));
    expect(known.length).toBeGreaterThan(widths.length / 4);
    return NOISE.map((_, i) => known.reduce((sum, row) => sum + (row[i] ?? 0), 0) / known.length);
  }

  function louder(sensor: InventedSensor, times: number): InventedSensor {
    return {
      ...sensor,
      noisePa: sensor.noisePa * times,
      relativeNoise: sensor.relativeNoise * times,
      spikeShare: 0,
      gap: null,
    };
  }

  test('never makes a leak’s interval narrower, on average', () => {
    const [quiet = 0, loud = 0] = meansOf(
      widthsOf(({ points, marks, endS }) => {
        const leak = judge(historyOf(points), marks, SHEET, endS).rise?.leakPaPerS;
        return leak ? leak.high - leak.low : null;
      }),
    );
    expect(loud).toBeGreaterThan(quiet);
  });

  test('never makes the end of the hold better known, on average', () => {
    const [quiet = 0, loud = 0] = meansOf(
      widthsOf(({ points, marks, isolatedS }) => {
        const nowS = isolatedS + 100;
        const end = judge(historyOf(points), marks, SHEET, nowS).rise?.endOfHold;
        return end ? end.high - end.low : null;
      }),
    );
    expect(loud).toBeGreaterThan(quiet);
  });

  test('never makes the remaining time better known, on average', () => {
    // As ratios of the ends, since times differ from seconds to hours between jobs.
    const widths = Array.from({ length: 3 * JOBS }, (_, seed) => {
      const random = seeded(seed);
      const truePa = pullDownPressure(inventPullDown(random, 'dry'), 3600);
      const nowS = Array.from({ length: 3600 }, (_second, elapsedS) => elapsedS).find(
        (elapsedS) => truePa(elapsedS) < 2.5 * SHEET.targetPa,
      );
      const sensor = { ...inventSensor(random, 3600), ratePerS: 2 };
      return NOISE.map((times) => {
        const points = readingsOf(truePa, louder(sensor, times), seeded(seed), 0, nowS ?? 0);
        const { forecast } = judge(historyOf(points), [], SHEET, nowS ?? 0);
        const { p10S, p90S } = forecast?.remaining ?? { p10S: 0, p90S: null };
        return p90S === null || !(p10S > 0) ? null : Math.log(p90S / p10S);
      });
    });
    const [quiet = 0, loud = 0] = meansOf(widths);
    expect(loud).toBeGreaterThan(quiet);
  });
});
