/** Causes of a pull-down by its evidence, where water may boil, and what to call a system that was filled. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { kelvinFromCelsius } from '../../../../protocol/units.ts';
import { iceVapourPressurePa, waterVapourPressurePa } from '../../../../protocol/water.ts';
import type { Stage } from '../../../../web/analysis/conclusions.ts';
import {
  type Evidence,
  isBallastOpen,
  rankCauses,
} from '../../../../web/analysis/pull-down/causes.ts';
import {
  boilOffEvidence,
  isInBoilingRange,
  mayBeWater,
  mayStandOnIce,
  mayStandOnWarmIce,
  mayStandOnWater,
  plateauEndS,
  plateauMayCome,
  waterShare,
} from '../../../../web/analysis/pull-down/plateau.ts';
import type { Fill } from '../../../../web/analysis/stages/fill-watch.ts';
import { filledNames, Level, namesByLevel } from '../../../../web/analysis/stages/filled-names.ts';
import { describe, expect, test } from 'vitest';

describe('causes', () => {
  const NONE: Evidence = {
    ...{ boiling: 0, mayBeWater: false, isFloor: false, isRising: false, isBallastOpen: false },
    exponent: null,
  };
  const ranked = (change: Partial<Evidence>) => rankCauses({ ...NONE, ...change });
  const first = (change: Partial<Evidence>) => ranked(change)[0]?.cause;
  const weight = (change: Partial<Evidence>, cause: string) =>
    ranked(change).find((one) => one.cause === cause)?.weight ?? 0;
  const power = (value: number, error = 0.01) => ({ exponent: { value, error } });

  test('of a curve of which nothing is known is gas: it is on its way', () => {
    expect(ranked({})).toEqual([{ cause: 'gas', weight: 1 }]);
  });

  test.each([
    ['gas', power(3)],
    ['gas', power(2)],
    ['slow_tail', power(1.1)],
    ['slow_tail', power(0.5)],
    ['slow_tail', power(0.3)],
    ['floor', power(0)],
    ['floor', power(-1)],
    ['floor', { ...power(0), isFloor: true }],
    ['boil_off', { ...power(0), mayBeWater: true }],
    ['boil_off', { boiling: 1 }],
    ['floor', { ...power(0), boiling: 1, isFloor: true }],
    ['rising', { isRising: true, boiling: 1 }],
    ['ballast', { ...power(0), isBallastOpen: true }],
  ] as const)('%s first: %j', (cause, evidence) => {
    expect(first(evidence)).toBe(cause);
  });

  test('share the weight between gas and a tail by how fast the pressure falls', () => {
    // Half way from 1.1 to 2.
    expect(ranked(power(1.55))).toEqual([
      { cause: 'slow_tail', weight: 0.5 },
      { cause: 'gas', weight: 0.5 },
    ]);
    expect(weight(power(1.8), 'gas')).toBeGreaterThan(weight(power(1.6), 'gas'));
    // Half way from 0.3 to nothing: a floor counts 0.7 of that.
    expect(weight(power(0.15), 'slow_tail')).toBeCloseTo(0.5 / 0.85, 9);
    expect(weight(power(0.15), 'floor')).toBeCloseTo(0.35 / 0.85, 9);
  });

  test('add up to one, the likeliest first, and none with next to no weight', () => {
    for (const value of [-0.5, 0.05, 0.2, 0.7, 1.3, 1.9, 2.5]) {
      for (const flags of [
        {},
        { isFloor: true },
        { isRising: true },
        { boiling: 0.5 },
        { isBallastOpen: true },
      ]) {
        const causes = ranked({ ...power(value), ...flags });
        const weights = causes.map((one) => one.weight);
        expect(weights).toEqual([...weights].sort((a, b) => b - a));
        expect(Math.min(...weights)).toBeGreaterThan(0.02);
        expect(weights.reduce((sum, one) => sum + one, 0)).toBeGreaterThan(0.95);
        expect(weights.reduce((sum, one) => sum + one, 0)).toBeLessThanOrEqual(1 + 1e-12);
      }
    }
  });

  test('wet oil lets a floor sink, beyond doubt', () => {
    const floor = { isFloor: true };
    expect(weight({ ...floor, ...power(0.1, 0.04) }, 'wet_oil')).toBeGreaterThan(0.2);
    expect(weight({ ...floor, ...power(0.1, 0.05) }, 'wet_oil')).toBe(0);
    expect(weight(power(0.1, 0.01), 'wet_oil')).toBe(0);
    expect(weight({ ...floor, exponent: null }, 'wet_oil')).toBe(0);
  });

  test('water is less likely beside a floor that has lasted, and takes from what it explains', () => {
    expect(weight({ ...power(0), boiling: 1 }, 'floor')).toBe(0);
    expect(weight({ boiling: 0.5 }, 'gas')).toBeCloseTo(0.5 / 2, 9);
    expect(weight({ ...power(0.5), boiling: 1 }, 'slow_tail')).toBeCloseTo(0.1 / 3.1, 9);
    const beside = { ...power(0), boiling: 1, isFloor: true };
    expect(weight(beside, 'floor') / weight(beside, 'boil_off')).toBeCloseTo(2, 9);
  });

  test('an open ballast holds up only what is flat', () => {
    expect(weight({ ...power(0.5), isBallastOpen: true }, 'ballast')).toBe(0);
    expect(weight({ ...power(0), isBallastOpen: true }, 'ballast')).toBeCloseTo(1.5 / 2.2, 9);
  });

  test('the ballast is as the latest word on it says', () => {
    const marks = (...kinds: MarkKind[]) =>
      kinds.map((kind, id): Mark => ({ id, kind, elapsedS: id, text: '', madeBy: 'hand' }));
    expect(isBallastOpen([])).toBe(false);
    expect(isBallastOpen(marks('ballast_opened', 'note'))).toBe(true);
    expect(isBallastOpen(marks('ballast_opened', 'ballast_closed', 'isolated'))).toBe(false);
    expect(isBallastOpen(marks('ballast_closed', 'ballast_opened'))).toBe(true);
  });
});

describe('where water may stand', () => {
  const ice = (celsius: number) => iceVapourPressurePa(kelvinFromCelsius(celsius));

  test('boiling is looked for from ice at −16 °C to a quarter above the triple point', () => {
    expect([149, 150, 764, 765].map(isInBoilingRange)).toEqual([false, true, true, false]);
    expect(ice(-16)).toBeCloseTo(150, -1);
    expect([764, 765].map(plateauMayCome)).toEqual([false, true]);
  });

  test('warm water stands as high as at 25 °C, cold ice as low as at −20 °C', () => {
    expect([149, 150, 3200, 3201].map(mayBeWater)).toEqual([false, true, true, false]);
    expect(waterVapourPressurePa(25)).toBeCloseTo(3200, -2);
    expect(mayStandOnIce(ice(-19.9))).toBe(true);
    expect(mayStandOnIce(ice(-20.1))).toBe(false);
    expect(mayStandOnWarmIce(ice(-9.9))).toBe(true);
    expect(mayStandOnWarmIce(ice(-10.1))).toBe(false);
    expect(mayStandOnWater(ice(-4.9))).toBe(true);
    expect(mayStandOnWater(ice(-5.1))).toBe(false);
  });

  test('it seems to boil where it is flat: sure to 1.5 % a minute, not at all from 6 %', () => {
    const at = (percentAMinute: number, pressurePa = 500) =>
      boilOffEvidence(pressurePa, percentAMinute / 100 / 60);
    for (const rate of [0, 1.5, -1.5]) expect(at(rate)).toBeCloseTo(1, 9);
    expect(at(3.75)).toBeCloseTo(0.5, 9);
    expect(at(-3.75)).toBeCloseTo(0.5, 9);
    expect([at(6), at(20), at(-20)]).toEqual([expect.closeTo(0, 9), 0, 0]);
    expect([at(0, 149), at(0, 765)]).toEqual([0, 0]);
  });

  test('how likely it is depends on where the curve stands, and on the room to the depth', () => {
    const FALLING = { isBoiling: false, flatness: 0 };
    const BOILING = { isBoiling: true, flatness: 0 };
    expect(waterShare(500, 100, BOILING)).toBe(1);
    expect(waterShare(150, 100, BOILING)).toBeCloseTo(Math.log(1.5), 12);
    expect(waterShare(90, 100, BOILING)).toBe(0);
    expect(waterShare(1000, 100, FALLING)).toBe(0.5);
    expect(waterShare(1000, 800, FALLING)).toBeCloseTo(0.5 * Math.log(1.25), 12);
    expect(waterShare(500, 100, FALLING)).toBe(0.18);
    expect(waterShare(140, 30, FALLING)).toBe(0.05);
    expect(waterShare(102, 30, FALLING)).toBe(0);
  });

  test('a plateau ends where its last flat stretch does', () => {
    const points = (pressureAt: (t: number) => number, lengthS = 600) =>
      Array.from({ length: lengthS / 10 + 1 }, (_, n) => ({
        elapsedS: 10 * n,
        pressurePa: pressureAt(10 * n),
      }));
    const gas = (t: number) => 1e5 * Math.exp(-t / 40);
    expect(plateauEndS(points((t) => Math.max(gas(t), 500)))).toBe(600);
    expect(
      plateauEndS(
        points((t) => (t <= 400 ? Math.max(gas(t), 500) : 500 * Math.exp((400 - t) / 60))),
      ),
    ).toBe(400);
    expect(plateauEndS(points(gas))).toBeNull();
    expect(plateauEndS(points((t) => Math.max(gas(t), 50)))).toBeNull();
    expect(plateauEndS([])).toBeNull();
    expect(plateauEndS([{ elapsedS: 0, pressurePa: 500 }])).toBeNull();
  });
});

describe('a system that was filled', () => {
  const stage = (name: Stage['name'], sinceS: number): Stage => ({
    ...{ name, sinceS, recognisedBy: 'curve', alternatives: [] },
  });
  const fill = (sinceS: number, stillRising: boolean): Fill => ({ ...FILL, sinceS, stillRising });
  const FILL: Fill = { sinceS: 0, stillRising: false, footPa: 30, lowestPa: 30, fast: true };

  test('under pumping is most likely nitrogen, or, while it still rises, a pump that stands', () => {
    expect(filledNames(fill(900, false), stage('pull_down', 0))).toEqual([
      ...['nitrogen_break', 'vented', 'pump_stopped'],
    ]);
    expect(filledNames(fill(900, true), stage('at_depth', 0))).toEqual([
      ...['pump_stopped', 'nitrogen_break', 'vented'],
    ]);
  });

  test('after a hold is opened where that may have been enough, from five minutes on', () => {
    expect(filledNames(fill(900, true), stage('rise', 600))).toEqual(['vented', 'nitrogen_break']);
    expect(filledNames(fill(899, true), stage('rise', 600))).toEqual(['nitrogen_break', 'vented']);
  });

  test('is told by where it comes to rest: nitrogen above the atmosphere, an open one at it', () => {
    expect(namesByLevel(1.03e5, 1e5, 90)).toEqual(['nitrogen_break']);
    expect(namesByLevel(1.005e5, 1e5, 90)).toEqual(['vented']);
    expect(namesByLevel(0.995e5, 1e5, 90)).toEqual(['vented']);
    expect(namesByLevel(1.01e5, 1e5, 90)).toBeNull();
    expect(namesByLevel(0.9e5, 1e5, 90)).toBeNull();
    expect(namesByLevel(1.03e5, 1e5, 89)).toBeNull();
    expect(namesByLevel(null, 1e5, 90)).toBeNull();
    expect(namesByLevel(1.11e5, null, 90)).toEqual(['nitrogen_break']);
    expect(namesByLevel(1.09e5, null, 90)).toBeNull();
  });

  test('a level is one where four readings in a row were near to it', () => {
    const level = new Level();
    for (const pressurePa of [100, 101, 99]) level.see(pressurePa);
    expect(level.pa).toBeNull();
    level.see(100);
    expect(level.pa).toBeCloseTo(100, 0);
    level.see(200);
    expect(level.pa).toBeCloseTo(100, 0);
    for (let n = 0; n < 200; n += 1) level.see(200);
    expect(level.pa).toBeCloseTo(200, 0);
  });

  test('a level that was over range is none, until that is forgotten', () => {
    const level = new Level();
    for (let n = 0; n < 5; n += 1) level.see(100);
    const copy = new Level();
    copy.become(level);
    level.cut();
    expect(level.pa).toBeNull();
    expect(copy.pa).toBeCloseTo(100, 9);
    level.forget();
    expect(level.pa).toBeNull();
    for (let n = 0; n < 4; n += 1) level.see(50);
    expect(level.pa).toBeCloseTo(50, 9);
  });
});
