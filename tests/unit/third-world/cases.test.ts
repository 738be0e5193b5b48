/** The third world's cases are what they claim to be, and its physics that of textbooks. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { CLASS_HOLD_S, RISE_CLASSES, riseClass } from '../../support/second-world/rise-class.ts';
import { THIRD_WORLD } from '../../bench/accuracy/third-world-trials.ts';
import { conductance } from '../../support/third-world/bore.ts';
import { played, PUMP_ON_S } from '../../support/third-world/played.ts';
import { pullDownCase } from '../../support/third-world/pull-down-case.ts';
import type { Rig } from '../../support/third-world/rig.ts';
import { riseCase } from '../../support/third-world/rise-case.ts';

const FOLDER = fileURLToPath(new URL('../../support/third-world', import.meta.url));
const SEEDS = Array.from({ length: 20 }, (_, i) => i + 1);

/** Twenty litres, ten of them a second: nothing but gas. */
const PLAIN: Rig = {
  volumeM3: 0.02,
  pump: { speedM3PerS: 0.002, ultimatePa: 2, fallingBelowPa: 1e-9, coldFactor: 1, warmsInS: 1 },
  line: { diameterM: 1, lengthM: 1 },
  pockets: [],
  gaugePocket: null,
  places: [],
  humidPa: 0,
  outgassing: () => 0,
  pool: null,
  inflowPaM3PerS: 0,
  surroundings: { wallC: () => 20, gaugeC: () => 20 },
};
const pumpedFor = (wholeS: number) => ({
  pumping: true,
  over: (inPhaseS: number) => inPhaseS >= wholeS,
});
const HELD = { pumping: false, over: (inPhaseS: number) => inPhaseS > 1800 };

test('the same seed gives the same readings, another seed others', () => {
  for (const draw of [pullDownCase, riseCase]) {
    expect(draw(7).points).toEqual(draw(7).points);
    expect(draw(7).points).not.toEqual(draw(8).points);
  }
});

test('rises fill the five classes evenly, by what the gauge would show', () => {
  for (const seed of SEEDS) {
    const { kind, leakPaPerS, rosePa, isolatedS, gauge, shownAt } = riseCase(seed);
    expect(kind).toBe(RISE_CLASSES[seed % RISE_CLASSES.length]);
    const roseAgainPa = shownAt(isolatedS + CLASS_HOLD_S) - shownAt(isolatedS + 2 * gauge.lagS);
    expect(rosePa).toBe(roseAgainPa);
    expect(riseClass(leakPaPerS, roseAgainPa)).toBe(kind);
  }
});

test('as trials, records begin at 0 wherever the pumping did, and are marked from there on', () => {
  let late = 0;
  for (const { points, marks, isolatedS, shownAt, kind } of SEEDS.map(THIRD_WORLD.rise)) {
    expect(points[0]?.elapsedS).toBeGreaterThanOrEqual(0);
    expect(points[0]?.elapsedS).toBeLessThan(20);
    expect(marks.at(-1)).toMatchObject({ kind: 'isolated', elapsedS: isolatedS });
    expect(points.at(-1)?.elapsedS).toBeGreaterThan(isolatedS + 1500);
    if (kind === 'leak') expect(shownAt(isolatedS + 1700)).toBeGreaterThan(shownAt(isolatedS + 60));
    if (marks.length === 1) late += 1;
  }
  expect(late).toBeGreaterThan(1);
});

test('a repeated hold is the same rig again, pumped between', () => {
  const { holds, marks, points } = THIRD_WORLD.repeat(3);
  const reopened = marks.find(({ kind }) => kind === 'reopened');
  expect(reopened?.elapsedS).toBeGreaterThan(holds[0].isolatedS + CLASS_HOLD_S);
  expect(holds[1].isolatedS).toBeGreaterThan((reopened?.elapsedS ?? Infinity) + 500);
  expect(points.at(-1)?.elapsedS).toBeGreaterThan(holds[1].isolatedS + CLASS_HOLD_S - 20);
});

test('a pull-down shows its target when it says so, and not before', () => {
  for (const { reachedS, points } of SEEDS.map(pullDownCase)) {
    if (reachedS === null) continue;
    const early = points.filter(({ elapsedS }) => elapsedS < 0.9 * reachedS);
    expect(early.length).toBeGreaterThan(10);
    const below = early.filter(({ pressurePa }) => pressurePa !== null && pressurePa < 60);
    expect(below.length).toBe(0);
  }
});

test('an empty vessel falls by e in its volume over the speed, down to what the pump gives back', () => {
  const { gasPaAt } = played(PLAIN, [pumpedFor(300)]);
  const fell = Math.log(gasPaAt(PUMP_ON_S + 10) / gasPaAt(PUMP_ON_S + 30));
  // 2 L/s of 20 L: a tenth a second; steps of 0.2 to 0.3 s take a hundredth off.
  expect(fell).toBeGreaterThan(1.95);
  expect(fell).toBeLessThan(2.01);
  expect(gasPaAt(PUMP_ON_S + 299)).toBeCloseTo(2, 3);
});

test('an inflow rises straight, and a virtual leak bends over to what it had in it', () => {
  const leaking = { ...PLAIN, inflowPaM3PerS: 0.02 * 0.01 };
  const straight = played(leaking, [pumpedFor(300), HELD]);
  const [isolatedS = 0] = straight.endsS;
  const rose = (fromS: number, toS: number) =>
    straight.gasPaAt(isolatedS + toS) - straight.gasPaAt(isolatedS + fromS);
  expect(rose(0, 600)).toBeCloseTo(6, 2);
  expect(rose(1200, 1800)).toBeCloseTo(6, 2);

  const pocket = { volumeM3: 2e-5, passage: { diameterM: 1e-4, lengthM: 0.01 } };
  const hiding = { ...PLAIN, pockets: [pocket] };
  const bent = played(hiding, [pumpedFor(600), HELD]);
  const [shutS = 0] = bent.endsS;
  const early = bent.gasPaAt(shutS + 600) - bent.gasPaAt(shutS);
  const late = bent.gasPaAt(shutS + 1200) - bent.gasPaAt(shutS + 600);
  expect(early).toBeGreaterThan(0.5);
  expect(late).toBeLessThan(0.8 * early);
});

test('water boils at a plateau near its vapour pressure until it is gone', () => {
  const pool = { waterKg: 0.01, evaporationM3PerS: 0.02, heatWPerK: 20 };
  const { gasPaAt } = played({ ...PLAIN, pool }, [pumpedFor(1500)]);
  // At 20 °C water has 2339 Pa; what it loses in heat takes some off.
  expect(gasPaAt(PUMP_ON_S + 150)).toBeGreaterThan(1200);
  expect(gasPaAt(PUMP_ON_S + 150)).toBeLessThan(2339);
  expect(gasPaAt(PUMP_ON_S + 1490)).toBeLessThan(3);
});

test('a bore passes what the textbook says: molecular by d³, viscous by d⁴ and the pressure', () => {
  // 1 cm wide, 1 m long: 0.121 L/s molecular; 1.35 L/s at 100 Pa viscous.
  expect(conductance({ diameterM: 0.01, lengthM: 1 }, 0)).toBeCloseTo(1.21e-4, 8);
  expect(conductance({ diameterM: 0.01, lengthM: 1 }, 100)).toBeCloseTo(1.21e-4 + 1.35e-3, 8);
});

test('it has nothing of the rehearsals, of the second world but the classes, nor of the judge', () => {
  for (const file of readdirSync(FOLDER)) {
    const text = readFileSync(`${FOLDER}/${file}`, 'utf8');
    const foreign = [...text.matchAll(/^import (?!type).*from '(\.\..*)';$/gmu)]
      .map(([, from = '']) => from)
      .filter((from) => !/protocol|invented-curves|rise-class/u.test(from));
    expect(foreign, file).toEqual([]);
  }
});
