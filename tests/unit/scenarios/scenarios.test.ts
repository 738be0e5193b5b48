import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { REHEARSAL_CAUSES, rehearsalListSchema, revealSchema } from '../../../protocol/api.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../../simulators/scenarios/play.ts';
import { ScenarioRun } from '../../../simulators/scenarios/scenario-run.ts';
import { played, scenarioNamed } from '../../support/played-scenario.ts';
import { TELLING } from '../../support/telling-words.ts';

const FOLDER = new URL('../../../simulators/scenarios/', import.meta.url);
const NAMES = ALL_SCENARIOS.map(({ card }) => card.name);

/** Where the helper does something else than pump, close the ballast and valve off, in this order. */
const DOES: Readonly<Record<string, readonly string[]>> = {
  'bridge-end-pharmacy': ['pump_on', 'isolated'],
  'harbour-lane-bookshop': [
    ...['pump_on', 'ballast_closed', 'isolated'],
    ...['nitrogen_break', 'joints_tightened', 'reopened', 'isolated'],
  ],
  'saddlers-yard-cafe': [
    ...['pump_on', 'ballast_closed', 'isolated'],
    ...['nitrogen_break', 'joints_tightened', 'reopened', 'isolated'],
  ],
  'observatory-lane-office': ['pump_on', 'ballast_closed', 'isolated', 'stub_shut'],
  'lantern-court-library': ['pump_on', 'ballast_closed', 'isolated', 'sections_opened'],
  'ropewalk-print-shop': [
    ...['pump_on', 'ballast_closed', 'isolated'],
    ...['reopened', 'sections_shut', 'isolated'],
  ],
  'north-quay-boathouse': [
    ...['pump_on', 'ballast_closed', 'isolated'],
    ...['battery_changed', 'reopened', 'isolated'],
  ],
  'priory-street-gymnasium': [
    ...['pump_on', 'ballast_closed'],
    ...['nitrogen_break', 'ballast_opened', 'reopened', 'ballast_closed'],
    ...['nitrogen_break', 'ballast_opened', 'reopened', 'ballast_closed', 'isolated'],
  ],
};
/** Where the depth is not reached: he gives up after forty minutes. */
const NEVER_DEEP = [
  'chapel-hill-surgery',
  'station-road-florist',
  'mill-street-barber',
  'orchard-close-flat',
  'bridge-end-pharmacy',
  'tollgate-cottage',
];

describe('every scenario', () => {
  it('has a card of its own that the list can show', () => {
    rehearsalListSchema.parse({ rehearsals: ALL_SCENARIOS.map(({ card }) => card) });
    expect(new Set(NAMES).size).toBe(ALL_SCENARIOS.length);
    expect(new Set(ALL_SCENARIOS.map(({ card }) => card.place)).size).toBe(ALL_SCENARIOS.length);
  });

  it('keeps its cause to itself on the card and in the name of its file', () => {
    for (const { card } of ALL_SCENARIOS) {
      expect(`${card.name} ${card.place} ${card.situation}`).not.toMatch(TELLING);
      expect(readdirSync(FOLDER)).toContain(`${card.name}.ts`);
    }
  });

  it.each(NAMES)('has a truth that can be revealed: %s', (name) => {
    expect(() => revealSchema.parse(played(name).truth)).not.toThrow();
  });

  it.each(NAMES)('plays the same for the same seed: %s', (name) => {
    expect(begun(name, 1, 400)).toEqual(played(name).rows.slice(0, 400));
  });

  it.each(NAMES)('has other noise for another seed: %s', (name) => {
    expect(begun(name, 2, 30)).not.toEqual(played(name).rows.slice(0, 30));
  });

  it.each(NAMES)('is worked by its helper in the right order, within three hours: %s', (name) => {
    const { marks, rows, isolatedS } = played(name);
    const kinds = marks.map(({ kind }) => kind);
    expect(kinds).toEqual(DOES[name] ?? ['pump_on', 'ballast_closed', 'isolated']);
    expect(marks[0]?.elapsedS).toBe(20);
    expect(rows.map(({ elapsedS }) => elapsedS)).toEqual([...rows.keys()]);
    const afterHoldS = kinds.at(-1) === 'stub_shut' ? 180 : 0;
    expect(rows.at(-1)?.elapsedS).toBe(isolatedS + 960 + afterHoldS);
    expect(rows.length).toBeLessThan(3 * 3600);
  });

  it.each(NAMES.filter((name) => name !== 'bridge-end-pharmacy'))(
    'closes the ballast at 3000 micron, each time: %s',
    (name) => {
      const { timesOf, micronAt } = played(name);
      for (const closedS of timesOf('ballast_closed')) {
        expect(micronAt(closedS)).toBeLessThan(3000);
        expect(micronAt(closedS - 1)).toBeGreaterThanOrEqual(3000);
      }
    },
  );

  it.each(NAMES.filter((name) => !NEVER_DEEP.includes(name)))(
    'is valved off once it has been deep for twenty seconds: %s',
    (name) => {
      const { isolatedS, micronAt } = played(name);
      for (let second = isolatedS - 20; second <= isolatedS; second += 1) {
        expect(micronAt(second)).toBeLessThan(250);
      }
    },
  );

  it.each(NEVER_DEEP)('is valved off after forty minutes all the same: %s', (name) => {
    const { marks, isolatedS, micronAt } = played(name);
    expect(isolatedS - (marks.at(-2)?.elapsedS ?? NaN)).toBe(40 * 60);
    expect(micronAt(isolatedS)).toBeGreaterThan(250);
  });

  it.each(NAMES)('is over range at the start: %s', (name) => {
    expect(played(name).rows[0]?.pressurePa).toBeNull();
  });

  it('never begins without a helper', () => {
    const [first] = ALL_SCENARIOS;
    if (!first) throw new Error('there are no scenarios');
    const { rows, marks } = play(first, 1, { helper: false });
    expect(marks).toEqual([]);
    expect(rows.at(-1)?.elapsedS).toBe(6 * 3600);
  });
});

describe('the curve', () => {
  /** Of these nothing on the curve tells, since nothing is wrong with the pressure. */
  const SILENT = ['in_order', 'radio'];

  it.each(NAMES)('tells early enough, or never where nothing is wrong with it: %s', (name) => {
    const { truth, isolatedS } = played(name);
    if (SILENT.includes(truth.cause)) expect(truth.toldS).toBeNull();
    // In the middle of the last hold at the latest: there is something left to be seen.
    else expect(truth.toldS).toBeLessThan(isolatedS + 490);
  });

  it('covers every cause', () => {
    expect(new Set(NAMES.map((name) => played(name).truth.cause))).toEqual(
      new Set(REHEARSAL_CAUSES),
    );
  });
});

function begun(name: string, seed: number, count: number) {
  const run = new ScenarioRun(scenarioNamed(name), seed, { helper: true });
  return Array.from({ length: count }, () => run.next());
}

describe('a system in order', () => {
  // Common practice, no source: below 1000 micron in about two minutes, 500 in five, 250 in ten.
  it('comes down as a technician expects it of a small split', () => {
    const { timeTo } = played('quarry-road-bakery');
    expect(timeTo(1000)).toBeLessThan(3 * 60);
    expect(timeTo(500)).toBeLessThan(5 * 60);
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
