/** Pull-downs by the dozen, from a formula that the forecast doesn't know, seen by many sensors. */
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import type { Forecast } from '../../../../web/analysis/conclusions.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import {
  historyOf,
  inventPullDown,
  inventSensor,
  pullDownPressure,
  readingsOf,
  seeded,
  type PullDownClass,
} from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

const CURVES = 50;
const LONGEST_S = 7000;

interface Case {
  readonly forecast: Forecast | null;
  readonly remainingS: number;
}

/** Forecasts at parts of the time that it really takes. */
function forecasts(kind: PullDownClass, parts: readonly number[]): Map<number, Case[]> {
  const cases = new Map<number, Case[]>(parts.map((part) => [part, []]));
  for (let seed = 0; seed < CURVES; seed += 1) {
    const random = seeded(77 * seed + kind.charCodeAt(0));
    const curve = inventPullDown(random, kind);
    const truePa = pullDownPressure(curve, LONGEST_S);
    const reachedS = firstBelow(truePa, DEFAULT_SHEET.targetPa);
    if (reachedS === null || reachedS < 60) continue;
    const sensor = inventSensor(random, LONGEST_S);
    const history = historyOf(readingsOf(truePa, sensor, random, 0, reachedS));
    for (const part of parts) {
      const nowS = Math.floor(part * reachedS);
      const { forecast } = judge(history, [], DEFAULT_SHEET, nowS);
      cases.get(part)?.push({ forecast, remainingS: reachedS - nowS });
    }
  }
  return cases;
}

function firstBelow(truePa: (elapsedS: number) => number, limitPa: number): number | null {
  for (let elapsedS = 0; elapsedS < LONGEST_S; elapsedS += 1) {
    if (truePa(elapsedS) <= limitPa) return elapsedS;
  }
  return null;
}

function summary(cases: readonly Case[]) {
  const told = cases.flatMap(({ forecast, remainingS }) =>
    forecast?.remaining ? [{ ...forecast.remaining, remainingS }] : [],
  );
  const inside = told.filter(
    ({ p10S, p90S, remainingS }) => p10S <= remainingS && remainingS <= (p90S ?? Infinity),
  );
  const errors = told
    .map(({ p50S, remainingS }) => Math.abs(Math.log(p50S / remainingS)))
    .sort((a, b) => a - b);
  return {
    told: told.length,
    inside: inside.length / told.length,
    bounded: told.filter(({ p90S }) => p90S !== null).length,
    medianError: errors[errors.length >> 1] ?? Infinity,
    levelsOff: cases.filter(({ forecast }) => forecast?.outcome === 'levels_off').length,
  };
}

test('dry pull-downs: the interval holds the true time, and the middle closes in on it', () => {
  const cases = forecasts('dry', [0.5, 0.7, 0.9]);
  const [half, later, late] = [0.5, 0.7, 0.9].map((part) => summary(cases.get(part) ?? []));
  for (const at of [half, later, late]) {
    // Eight of ten should; below seven of ten the interval would be a lie.
    expect(at?.inside).toBeGreaterThanOrEqual(0.75);
    expect(at?.levelsOff).toBeLessThanOrEqual(0.06 * CURVES);
  }
  expect(half?.told).toBeGreaterThanOrEqual(0.35 * CURVES);
  expect(later?.told).toBeGreaterThanOrEqual(0.7 * CURVES);
  expect(late?.told).toBeGreaterThanOrEqual(0.9 * CURVES);
  expect(later?.medianError).toBeLessThan(0.2);
  expect(late?.medianError).toBeLessThan(0.12);
  expect(late?.bounded).toBeGreaterThanOrEqual(0.9 * CURVES);
});

test('wet pull-downs: a plateau is never a fate, and the interval holds the true time', () => {
  const cases = forecasts('wet', [0.3, 0.5, 0.7, 0.9]);
  for (const part of [0.3, 0.5, 0.7, 0.9]) {
    const at = summary(cases.get(part) ?? []);
    // What follows a plateau has only just begun at nine tenths: then seven of ten do.
    expect(at.inside, `at ${part}`).toBeGreaterThanOrEqual(part === 0.9 ? 0.7 : 0.75);
    expect(at.levelsOff, `at ${part}`).toBeLessThanOrEqual(0.02 * CURVES);
  }
});

test('a floor above the target is never said to be reached', () => {
  for (let seed = 0; seed < 20; seed += 1) {
    const random = seeded(900 + seed);
    const curve = inventPullDown(random, 'floor');
    const sensor = inventSensor(random, 3000);
    const readings = readingsOf(pullDownPressure(curve, 3000), sensor, random, 0, 3000);
    const { targetReachedS, forecast } = judge(historyOf(readings), [], DEFAULT_SHEET, 3000);
    expect(targetReachedS).toBeNull();
    expect(forecast?.outcome).not.toBe('reached');
  }
});
