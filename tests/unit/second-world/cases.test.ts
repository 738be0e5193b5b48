/** The second world's cases are what they claim to be. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { pullDownCase } from '../../support/second-world/pull-down-case.ts';
import { repeatHoldCase } from '../../support/second-world/repeat-hold-case.ts';
import { riseCase } from '../../support/second-world/rise-case.ts';
import { CLASS_HOLD_S, RISE_CLASSES, riseClass } from '../../support/second-world/rise-class.ts';
import { readings, type Sensor } from '../../support/second-world/sensor.ts';
import { TrueCurve } from '../../support/second-world/true-curve.ts';
import { seeded } from '../../support/invented-curves.ts';

const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);
const FOLDER = fileURLToPath(new URL('../../support/second-world', import.meta.url));

test('the same seed gives the same readings, another seed others', () => {
  for (const draw of [pullDownCase, riseCase, repeatHoldCase]) {
    expect(draw(7).points).toEqual(draw(7).points);
    expect(draw(7).points).not.toEqual(draw(8).points);
  }
});

test('pull-downs are dry and wet, and one in six or more never reaches its target', () => {
  const cases = SEEDS.map(pullDownCase);
  const reaching = cases.filter(({ reachedS }) => reachedS !== null);
  const wet = reaching.filter((one) => one.wet).length / reaching.length;
  expect(wet).toBeGreaterThan(0.35);
  expect(wet).toBeLessThan(0.65);
  expect(reaching.length).toBeLessThan((5 / 6) * cases.length);
  const obstacles = new Set(cases.map(({ obstacle }) => obstacle));
  expect([...obstacles].sort()).toEqual(['ballast', 'leak', 'none', 'pump_floor', 'wet_oil']);
});

test('a pull-down shows the target when it says so, 2 min to 3 h after pump on, and not before', () => {
  for (const { pumpOnS, reachedS, shownAt } of SEEDS.map(pullDownCase)) {
    if (reachedS === null) continue;
    expect(shownAt(reachedS)).toBeCloseTo(66.66, 1);
    expect(reachedS - pumpOnS).toBeGreaterThan(120);
    expect(reachedS - pumpOnS).toBeLessThan(3 * 3600);
    for (let share = 0; share < 0.99; share += 0.05) {
      expect(shownAt(pumpOnS + share * (reachedS - pumpOnS))).toBeGreaterThan(66.66);
    }
  }
});

test('rises fill the five classes evenly, by their true curves', () => {
  for (const seed of SEEDS) {
    const { kind, leakPaPerS, isolatedS, shownAt, step } = riseCase(seed);
    expect(kind).toBe(RISE_CLASSES[seed % RISE_CLASSES.length]);
    if (step) continue;
    const rosePa = shownAt(isolatedS + CLASS_HOLD_S) - shownAt(isolatedS);
    expect(riseClass(leakPaPerS, rosePa)).toBe(kind);
  }
});

test('a repeated hold has the leak of the first, and no more moisture', () => {
  let less = 0;
  for (const seed of [1, 6, 11, 16, 21]) {
    const { once, points, holds } = repeatHoldCase(seed);
    expect(points.at(-1)?.elapsedS).toBeGreaterThan(holds[1].isolatedS + CLASS_HOLD_S);
    expect(holds[0].isolatedS).toBe(once.isolatedS);
    expect(holds[1].isolatedS).toBeGreaterThan(once.isolatedS + CLASS_HOLD_S + 600);
    if (holds[1].kind !== 'moisture') less += 1;
  }
  // All five are moist at first.
  expect(less).toBeGreaterThan(0);
});

test('the classes are those of the definition', () => {
  // 1 micron is 0.13332 Pa: 10 micron/min is 0.02222 Pa/s, 250 micron 33.33 Pa, 150 micron 20.0 Pa.
  expect(riseClass(0, 19)).toBe('tight_dry');
  expect(riseClass(0, 21)).toBe('borderline');
  expect(riseClass(0.008, 15)).toBe('borderline');
  expect(riseClass(0.003, 34)).toBe('moisture');
  expect(riseClass(0.0223, 24)).toBe('leak');
  expect(riseClass(0.0223, 40)).toBe('leak_and_moisture');
  expect(riseClass(0.0223, 101)).toBe('moisture');
});

const PLAIN: Sensor = {
  gain: 1,
  vapourFactor: 1,
  ratePerS: 2,
  lagS: 1e-3,
  noisePa: 0,
  relativeNoise: 0,
  slowShare: 0,
  slowS: 1,
  quantumPa: 0.5,
  coarsePa: 10,
  coarseFromPa: 200,
  spikeShare: 0,
  topPa: 500,
  zeroPaPerK: 0,
  zeroPaPerHour: 0,
  tellsTemperature: true,
};

function readingsOf(sensor: Sensor, silences: readonly { fromS: number; toS: number }[] = []) {
  const curve = new TrueCurve();
  curve.add(0, 0, 0);
  curve.add(1000, 900, 100);
  return readings(curve, sensor, seeded(1), { fromS: 0, toS: 1000, silences }, () => 21.26);
}

test('a sensor shows steps, coarser ones higher up, and nothing above its range', () => {
  for (const { elapsedS, pressurePa, condition, temperatureC } of readingsOf(PLAIN)) {
    expect(temperatureC).toBe(21.3);
    if (elapsedS < 199) expect((pressurePa ?? NaN) % 0.5).toBe(0);
    if (elapsedS > 201 && elapsedS < 499) expect((pressurePa ?? NaN) % 10).toBe(0);
    if (elapsedS > 501)
      expect({ pressurePa, condition }).toEqual({ pressurePa: null, condition: 'over_range' });
  }
});

test('a sensor errs by its gain, and reads vapour by its own factor', () => {
  const fine = { ...PLAIN, quantumPa: 1e-6, coarsePa: 0, coarseFromPa: Infinity, topPa: 1e5 };
  const last = readingsOf({ ...fine, gain: 1.1, vapourFactor: 0.8 }).at(-1);
  expect((last?.pressurePa ?? 0) / (1.1 * (900 + 0.8 * 100))).toBeCloseTo(1, 2);
});

test('a silence has no readings', () => {
  const heard = readingsOf(PLAIN, [{ fromS: 100, toS: 300 }]);
  expect(heard.filter(({ elapsedS }) => elapsedS > 100 && elapsedS < 300)).toEqual([]);
  expect(heard.length).toBeGreaterThan(1500);
});

test('it shares nothing with the simulated rigs', () => {
  const files = readdirSync(FOLDER);
  expect(files.length).toBeGreaterThan(10);
  for (const file of files) {
    const imports = [...readFileSync(`${FOLDER}/${file}`, 'utf8').matchAll(/from '([^']+)'/gu)];
    for (const [, from] of imports) expect(from).not.toContain('simulators');
  }
});
