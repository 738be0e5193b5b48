import { describe, expect, it } from 'vitest';
import { REHEARSAL_CAUSES, rehearsalListSchema, revealSchema } from '../../../protocol/api.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { celsiusFromKelvin, paFromMicron } from '../../../protocol/units.ts';
import { rigSetupSchema } from '../../../simulators/physics/rig-setup.ts';
import { SeededRandom } from '../../../simulators/physics/seeded-random.ts';
import { build } from '../../../simulators/scenarios/generated/build.ts';
import { callCause } from '../../../simulators/scenarios/generated/call-cause.ts';
import { DIFFICULTIES } from '../../../simulators/scenarios/generated/difficulty.ts';
import { NO_FAULTS, type Faults } from '../../../simulators/scenarios/generated/faults.ts';
import {
  drawAll,
  generateScenario,
} from '../../../simulators/scenarios/generated/generate-scenario.ts';
import {
  GENERATED_CARDS,
  generatedScenario,
} from '../../../simulators/scenarios/generated/generated-scenario.ts';
import { withoutCauses } from '../../../simulators/scenarios/generated/without-causes.ts';
import { play } from '../../../simulators/scenarios/play.ts';
import { truthOf } from '../../../simulators/scenarios/truth.ts';
import { TELLING } from '../../support/telling-words.ts';

const seeds = (count: number) => Array.from({ length: count }, (_, seed) => seed);
const wishes = (count: number) =>
  DIFFICULTIES.flatMap((difficulty) => seeds(count).map((seed) => ({ seed, difficulty })));

/** Drawing costs nothing; calling the cause takes a trial of the whole job. */
const DRAWN = wishes(300).map((wish) => ({ ...wish, ...drawAll(wish) }));
const GENERATED = wishes(24).map((wish) => ({ ...wish, scenario: generateScenario(wish) }));

describe('what is drawn', () => {
  it('makes rigs that the schema knows, with what is the matter and without', () => {
    for (const { job, faults } of DRAWN) {
      for (const each of [faults, NO_FAULTS]) {
        const { rig, sensorSection } = build(job, each);
        expect(() => rigSetupSchema.parse(rig)).not.toThrow();
        expect(sensorSection).toBeLessThan(rig.sections.length);
      }
    }
  });

  it('covers systems, pumps and weather as the trade meets them', () => {
    const litres = DRAWN.map(({ job }) => job.volumeM3 * 1000);
    expect(Math.min(...litres)).toBeGreaterThan(2);
    expect(Math.min(...litres)).toBeLessThan(3);
    expect(Math.max(...litres)).toBeLessThan(60);
    expect(Math.max(...litres)).toBeGreaterThan(50);
    expect(new Set(DRAWN.map(({ job }) => job.pump.cfm))).toEqual(new Set([2, 3, 4, 5, 6, 8, 10]));
    const celsius = DRAWN.map(({ job }) => celsiusFromKelvin(job.surroundings.temperatureK));
    expect(Math.min(...celsius)).toBeCloseTo(0, 6);
    expect(Math.max(...celsius)).toBeCloseTo(45, 6);
  });

  it('tells nothing on the card', () => {
    for (const { card } of [...DRAWN, ...GENERATED_CARDS.map((each) => ({ card: each }))]) {
      expect(`${card.name} ${card.place} ${card.situation}`).not.toMatch(TELLING);
    }
    rehearsalListSchema.parse({ rehearsals: GENERATED_CARDS });
  });

  it('is another job for another seed or difficulty, whose sensor’s noise is not drawn alike', () => {
    const volumes = DRAWN.map(({ job }) => job.volumeM3);
    expect(new Set(volumes).size).toBe(volumes.length);
    for (const { seed, heightM } of DRAWN.map(({ seed, job }) => ({ seed, ...job }))) {
      expect(heightM / 600).not.toBeCloseTo(new SeededRandom(seed).uniform(), 6);
      expect(heightM / 2500).not.toBeCloseTo(new SeededRandom(seed).uniform(), 6);
    }
  });
});

describe('a generated scenario', () => {
  it('is the same for the same seed, to the last digit', () => {
    for (const { seed, difficulty, scenario } of GENERATED.filter((each) => each.seed === 7)) {
      expect(generatedScenario(`generated-${difficulty}`, seed)).toEqual(scenario);
    }
    expect(generatedScenario('generated-easy', 7)).toBeNull();
  });

  it('takes any seed that a rehearsal may have', () => {
    for (const seed of [0xffff_ffff, 0x8000_0000]) {
      expect(() => drawAll({ seed, difficulty: 'hard' })).not.toThrow();
    }
  });

  it('is of every cause there is, and of none too often', () => {
    const count = (cause: string): number =>
      GENERATED.filter(({ scenario }) => scenario.cause === cause).length;
    for (const cause of REHEARSAL_CAUSES) {
      expect(count(cause), cause).toBeGreaterThan(0);
      expect(count(cause), cause).toBeLessThan(0.35 * GENERATED.length);
    }
  });

  // The inflow is summed up anew here, from the rig.
  it('is called a leak where more comes in than the limit, and by no other system cause', () => {
    for (const { scenario, seed, difficulty } of GENERATED) {
      const { leakPaPerS } = truthOf(scenario);
      const named = `${difficulty} ${seed}: ${scenario.cause}`;
      if (['leak', 'leak_and_moisture', 'charged_side'].includes(scenario.cause)) {
        expect(leakPaPerS, named).toBeGreaterThan(DEFAULT_SHEET.leakLimitPaPerS * 0.999);
      }
      if (['in_order', 'moisture', 'refrigerant', 'radio'].includes(scenario.cause)) {
        expect(leakPaPerS, named).toBeLessThan(DEFAULT_SHEET.leakLimitPaPerS);
      }
    }
  });

  it('has a twin in order: no leak, less water, and the very same where nothing is wrong', () => {
    for (const { scenario } of GENERATED) {
      const { inOrder } = scenario;
      const twin = truthOf({ ...scenario, ...inOrder });
      expect(twin.leakPaPerS).toBeLessThan(DEFAULT_SHEET.leakLimitPaPerS);
      if (['moisture', 'leak_and_moisture'].includes(scenario.cause)) {
        expect(twin.waterKgAtStart).toBeLessThan(truthOf(scenario).waterKgAtStart);
      }
      const { rig, sensorSection } = scenario;
      if (scenario.cause === 'in_order') expect(inOrder).toEqual({ rig, sensorSection });
      else if (scenario.cause !== 'radio') expect(inOrder).not.toEqual({ rig, sensorSection });
    }
  });

  it.each(GENERATED.filter(({ seed }) => seed < 3))(
    'plays to an end: $difficulty $seed',
    (given) => {
      const { rows, marks, truth } = play(given.scenario, given.seed);
      for (const { pressurePa, temperatureC } of rows) {
        expect(pressurePa === null || (pressurePa >= 0 && pressurePa < 100_000)).toBe(true);
        expect(Number.isFinite(temperatureC)).toBe(true);
      }
      expect(marks.map(({ kind }) => kind)).toContain('isolated');
      expect(() => revealSchema.parse(truth)).not.toThrow();
    },
  );
});

describe('what a job’s trouble is called', () => {
  const { job } = drawAll({ seed: 5, difficulty: 'plain' });
  const limit = DEFAULT_SHEET.leakLimitPaPerS;
  const slow = (startPa: number) => [{ ratio: 3, exchangeS: 6000, startPa }];
  const silent = (durationS: number) => ({ silences: [{ fromS: 60, durationS }] });

  it.each<[string, string, Partial<Faults>]>([
    ['nothing', 'in_order', {}],
    ['a leak at the limit', 'leak', { systemLeakPaPerS: limit }],
    ['one just below it', 'in_order', { systemLeakPaPerS: 0.99 * limit }],
    [
      'two that come to it together',
      'leak',
      { systemLeakPaPerS: 0.6 * limit, chargePaPerS: 0.5 * limit },
    ],
    ['one past a valve', 'charged_side', { systemLeakPaPerS: limit, chargePaPerS: 2 * limit }],
    ['one at the sensor', 'gear_leak', { stubLeakPaPerS: 2 * limit }],
    [
      'one behind a shut valve',
      'part_shut_off',
      { systemLeakPaPerS: 2 * limit, leakFar: true, farShut: true },
    ],
    ['a hose that holds the depth', 'gear_leak', { hoseLeakPa: job.depthPa }],
    ['much held water', 'moisture', { heldWater: slow(1000) }],
    ['a little', 'in_order', { heldWater: slow(100) }],
    [
      'much of it and a leak',
      'leak_and_moisture',
      { systemLeakPaPerS: limit, heldWater: slow(1000) },
    ],
    ['refrigerant in the oil', 'refrigerant', { heldRefrigerant: slow(2000) }],
    [
      'more water than refrigerant',
      'moisture',
      { heldRefrigerant: slow(500), heldWater: slow(1500) },
    ],
    ['foul oil', 'pump_or_oil', { foulPa: job.depthPa }],
    ['a battery of a minute', 'battery', { batteryS: 60 }],
    ['one that lasts', 'in_order', { batteryS: 3600 }],
    ['a thin hose', 'narrow_way', { narrow: true }],
    ['long silences', 'radio', silent(400)],
    ['short ones', 'in_order', silent(200)],
    [
      'a forgotten ballast, whatever else',
      'ballast_open',
      { ballastForgotten: true, systemLeakPaPerS: 1 },
    ],
    ['a sensor at the pump, whatever else', 'sensor_place', { sensorAtPump: true, foulPa: 500 }],
  ])('%s: %s', (_, cause, faults) => {
    expect(callCause(job, { ...NO_FAULTS, ...faults })).toBe(cause);
  });

  it('is taken away cause after cause', () => {
    const faults = { ...NO_FAULTS, sensorAtPump: true, systemLeakPaPerS: 5 * limit, foulPa: 2 };
    expect(withoutCauses(job, faults, 'sensor_place')).toEqual({ ...NO_FAULTS, foulPa: 2 });
  });

  it('has limits that are the job sheet’s', () => {
    expect(DEFAULT_SHEET.allowedRisePa).toBeCloseTo(paFromMicron(200), 9);
    expect(DEFAULT_SHEET.leakLimitPaPerS * 60).toBeCloseTo(paFromMicron(5), 9);
  });
});
