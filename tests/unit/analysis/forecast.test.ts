import { expect, test } from 'vitest';
import type { Mark } from '../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { judge } from '../../../web/analysis/judge.ts';
import {
  depthWithin,
  fitModel,
  pressuresAfter,
  timeBetweenS,
} from '../../../web/analysis/pull-down-models.ts';
import {
  historyOf,
  readingsOf,
  seeded,
  type InventedSensor,
} from '../../support/invented-curves.ts';

const SENSOR: InventedSensor = {
  ratePerS: 1,
  noisePa: 0.02,
  relativeNoise: 0.001,
  quantumPa: 0.001,
  lagS: 0.3,
  spikeShare: 0,
  gap: null,
  topPa: 2700,
};

function conclude(curve: (elapsedS: number) => number, nowS: number, marks: readonly Mark[] = []) {
  const readings = readingsOf(curve, SENSOR, seeded(11), 0, nowS);
  return judge(historyOf(readings), marks, DEFAULT_SHEET, nowS);
}

const exact = (curve: (elapsedS: number) => number) =>
  Array.from({ length: 120 }, (_, elapsedS) => ({ elapsedS, pressurePa: curve(elapsedS) }));

test('an exponential to a floor is found again: rate, floor, time', () => {
  const curve = (elapsedS: number) => 40 + 900 * Math.exp(-elapsedS / 50);
  const model = fitModel(exact(curve), { powers: [1], inflow: true, prior: 1 });
  if (!model) throw new Error('120 points are enough');
  expect(depthWithin(model, 8 * 3600)).toBeCloseTo(40, 0);
  // From 940 to 140 Pa: 50·ln 9 = 109.86 s.
  expect(timeBetweenS(model, 940, 140)).toBeCloseTo(50 * Math.log(9), 0);
  expect(timeBetweenS(model, 940, 30)).toBe(Infinity);
});

test('a tail like 1/t is found again', () => {
  const curve = (elapsedS: number) => 30_000 / (elapsedS + 100);
  const model = fitModel(exact(curve), { powers: [2], inflow: false, prior: 1 });
  if (!model) throw new Error('120 points are enough');
  // P = C/(t + t₀): from 100 Pa (t = 200) to 50 Pa (t = 500) in 300 s.
  expect(timeBetweenS(model, 100, 50)).toBeCloseTo(300, -1);
  expect((pressuresAfter(model, 100, [100, 300])[1] ?? 0) / 50).toBeCloseTo(1, 2);
});

test('over range it is too early, and the sensor is why', () => {
  const mark: Mark = { id: 1, kind: 'pump_on', elapsedS: 5, text: '', madeBy: 'hand' };
  const { forecast } = conclude(() => 90_000, 60, [mark]);
  expect(forecast).toMatchObject({
    outcome: 'too_early',
    causes: [{ cause: 'sensor', weight: 1 }],
  });
});

test('while water boils there is a lower bound, no upper one, and no fate', () => {
  const { forecast } = conclude((t) => 2e5 * Math.exp(-t / 12) + 590 - t / 100, 600);
  expect(forecast?.outcome).toBe('reaches');
  expect(forecast?.causes[0]?.cause).toBe('boil_off');
  expect(forecast?.remaining?.p10S).toBeGreaterThan(0);
  expect(forecast?.remaining?.p90S).toBeNull();
  // Ice and vapour at some 584 Pa: just below 0 °C.
  expect(forecast?.boilingPointC).toBeCloseTo(-0.6, 0);
});

test('a floor above the target, held to for long, is a curve that levels off', () => {
  const { forecast } = conclude((t) => 95 + 3e4 * Math.exp(-t / 40), 1200);
  expect(forecast).toMatchObject({ outcome: 'levels_off', remaining: null });
  expect(forecast?.floorPa?.low).toBeGreaterThan(DEFAULT_SHEET.targetPa);
  expect(forecast?.causes[0]?.cause).toBe('floor');
});

test('a floor below the target is none of its business', () => {
  const { forecast } = conclude((t) => 30 + 3e4 * Math.exp(-t / 80), 480);
  expect(forecast?.outcome).toBe('reaches');
  // 3e4·e^(−t/80) = 66.66 − 30 at t = 80·ln(3e4/36.66) = 536.6 s: 56.6 s to go.
  expect(forecast?.remaining?.p10S).toBeLessThan(57);
  expect(forecast?.remaining?.p90S).toBeGreaterThan(56);
});

test('a rising pressure is no forecast, and named', () => {
  // So gently that nothing shows a valve or a pump that stopped: by then 4.8 % a minute.
  const { forecast } = conclude((t) => 250 * Math.exp(t ** 2 / 1e6), 400);
  expect(forecast).toMatchObject({ outcome: 'too_early' });
  expect(forecast?.causes[0]?.cause).toBe('rising');
});

test('a change of the ballast starts the forecast afresh', () => {
  const mark: Mark = { id: 1, kind: 'ballast_closed', elapsedS: 200, text: '', madeBy: 'hand' };
  const { forecast } = conclude((t) => 30 + 3e4 * Math.exp(-t / 80), 400, [mark]);
  expect(forecast?.sinceS).toBe(200);
});
