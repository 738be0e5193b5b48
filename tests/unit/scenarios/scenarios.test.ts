import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { revealSchema, rehearsalListSchema } from '../../../protocol/api.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../../simulators/scenarios/play.ts';

/** Would give the cause away to somebody who reads a card, or the names of the files. */
const TELLING =
  /leak|\btight|\bwet\b|\bdry|moist|water|\brain|damp|flood|\bice\b|humid|crack|loose|flare|\boil/iu;
const FOLDER = new URL('../../../simulators/scenarios/', import.meta.url);

/** A scenario played by its helper, in the trade's unit. */
function played(name: string, seed = 1) {
  const scenario = ALL_SCENARIOS.find(({ card }) => card.name === name);
  if (!scenario) throw new Error(`there is no scenario ${name}`);
  const { rows, marks, truth } = play(scenario, seed);
  const timeOf = (kind: string): number =>
    marks.find((mark) => mark.kind === kind)?.elapsedS ?? NaN;
  const micronAt = (elapsedS: number): number => micronFromPa(rows[elapsedS]?.pressurePa ?? NaN);
  /** Mean of half a minute, so that noise doesn't count. */
  const around = (elapsedS: number): number =>
    Array.from({ length: 30 }, (_, second) => micronAt(elapsedS - 15 + second)).reduce(
      (sum, micron) => sum + micron / 30,
      0,
    );
  return {
    rows,
    marks,
    truth,
    isolatedS: timeOf('isolated'),
    /** Seconds from pump on until the sensor first shows less. */
    timeTo: (micron: number): number =>
      rows.findIndex(({ pressurePa }) => pressurePa !== null && micronFromPa(pressurePa) < micron) -
      timeOf('pump_on'),
    micronAt,
    /** So long after isolation. */
    held: (sinceIsolationS: number): number => around(timeOf('isolated') + sinceIsolationS),
  };
}

describe('every scenario', () => {
  it('has a card of its own that the list can show', () => {
    rehearsalListSchema.parse({ rehearsals: ALL_SCENARIOS.map(({ card }) => card) });
    expect(new Set(ALL_SCENARIOS.map(({ card }) => card.name)).size).toBe(ALL_SCENARIOS.length);
  });

  it('keeps its cause to itself on the card and in the name of its file', () => {
    for (const { card } of ALL_SCENARIOS) {
      expect(`${card.name} ${card.place} ${card.situation}`).not.toMatch(TELLING);
      expect(readdirSync(FOLDER)).toContain(`${card.name}.ts`);
    }
  });

  it('has a truth that can be revealed', () => {
    for (const { card } of ALL_SCENARIOS) {
      expect(() => revealSchema.parse(played(card.name).truth)).not.toThrow();
    }
  });

  it('plays the same for the same seed, and has other noise for another', () => {
    for (const { card } of ALL_SCENARIOS) {
      const once = played(card.name, 9).rows;
      expect(played(card.name, 9).rows).toEqual(once);
      expect(played(card.name, 10).rows).not.toEqual(once);
    }
  });

  it('is worked by its helper in the right order, with the ballast closed at 3000 micron', () => {
    for (const { card } of ALL_SCENARIOS) {
      const { marks, rows, micronAt, isolatedS } = played(card.name);
      expect(marks.map(({ kind }) => kind)).toEqual(['pump_on', 'ballast_closed', 'isolated']);
      expect(marks[0]?.elapsedS).toBe(20);
      const closedS = marks[1]?.elapsedS ?? NaN;
      expect(micronAt(closedS)).toBeLessThan(3000);
      expect(micronAt(closedS - 1)).toBeGreaterThanOrEqual(3000);
      for (let second = isolatedS - 20; second <= isolatedS; second += 1) {
        expect(micronAt(second)).toBeLessThan(250);
      }
      expect(rows.at(-1)?.elapsedS).toBe(isolatedS + 960);
      expect(rows.map(({ elapsedS }) => elapsedS)).toEqual([...rows.keys()]);
    }
  });

  it('is over range at the start', () => {
    for (const { card } of ALL_SCENARIOS) {
      expect(played(card.name).rows[0]?.pressurePa).toBeNull();
    }
  });

  it('never begins without a helper', () => {
    const [first] = ALL_SCENARIOS;
    if (!first) throw new Error('there are no scenarios');
    const { rows, marks } = play(first, 1, { helper: false });
    expect(marks).toEqual([]);
    expect(rows.at(-1)?.elapsedS).toBe(6 * 3600);
  });
});

describe('a system in order', () => {
  // Common practice, no source: below 1000 micron in about two minutes, 500 in five, 250 in ten.
  it('comes down as a technician expects it of a small split', () => {
    const { timeTo } = played('quarry-road-bakery');
    expect(timeTo(1000)).toBeLessThan(3 * 60);
    expect(timeTo(500)).toBeLessThan(6 * 60);
    expect(timeTo(250)).toBeGreaterThan(5 * 60);
    expect(timeTo(250)).toBeLessThan(12 * 60);
  });

  it('holds', () => {
    const { held, truth } = played('quarry-road-bakery');
    expect(truth.leakPaPerS).toBe(0);
    expect(held(900)).toBeLessThan(350);
    // Less than 1 micron a minute over the last five.
    expect(held(900) - held(600)).toBeLessThan(5);
  });
});

describe('a system with water in it', () => {
  it('stays for minutes near the triple point or below, then falls on', () => {
    const { timeTo } = played('lindens-dental-practice');
    expect(timeTo(2000) - timeTo(4600)).toBeGreaterThan(8 * 60);
    expect(timeTo(250)).toBeLessThan(75 * 60);
  });

  it('rises beyond the limit once valved off, and levels off', () => {
    const { held, isolatedS, micronAt, truth } = played('lindens-dental-practice');
    expect(truth.leakPaPerS).toBe(0);
    expect(truth.waterKgAtStart).toBeGreaterThan(1e-3);
    expect(held(900)).toBeGreaterThan(600);
    expect(held(900) - micronAt(isolatedS)).toBeGreaterThan(250);
    // A tenth of the first five minutes' rise is left for the last five.
    expect(held(900) - held(600)).toBeLessThan(0.1 * (held(315) - held(15)));
  });
});

describe('a system that lets air in', () => {
  it('reaches the depth all the same', () => {
    expect(played('weir-street-archive').timeTo(250)).toBeLessThan(20 * 60);
  });

  it('rises fast at first, and then by what comes in', () => {
    const { held, truth } = played('weir-street-archive');
    const steadyPerMinute = micronFromPa(truth.leakPaPerS * 60);
    expect(steadyPerMinute).toBeGreaterThanOrEqual(15);
    expect(held(75) - held(15)).toBeGreaterThan(2 * steadyPerMinute);
    expect((held(900) - held(600)) / 5 / steadyPerMinute).toBeCloseTo(1, 0);
  });
});
