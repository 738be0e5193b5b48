/** Evacuations with nitrogen between them: recognised, reckoned, and compared only where they are alike. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import type { Sheet, SheetEntry } from '../../../../protocol/sheet.ts';
import { triplePlanOf } from '../../../../protocol/triple-plan.ts';
import { paFromMicron, STANDARD_ATMOSPHERE_PA } from '../../../../protocol/units.ts';
import { advance } from '../../../../simulators/physics/advance.ts';
import type { Controls } from '../../../../simulators/physics/controls.ts';
import { createRig, totalPressurePa } from '../../../../simulators/physics/rig-state.ts';
import type { ReservoirSetup } from '../../../../simulators/physics/section-setup.ts';
import type { StageName } from '../../../../web/analysis/conclusions.ts';
import { airLeftShare } from '../../../../web/analysis/cycles/dilution.ts';
import { evacuationCycles } from '../../../../web/analysis/cycles/evacuation-cycles.ts';
import { tripleTold } from '../../../../web/analysis/cycles/triple-told.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { PUMPING, smallRig, STANDING } from '../../../support/small-rig.ts';
import { describe, expect, test } from 'vitest';

/** Residual air, Π(pᵢ/p_break), recomputed for 760 000 micron; the last one broken to 2 psi (gauge) each time. */
describe('the air that is left', () => {
  const TWO_PSI_PA = 2 * 6894.757293168;
  test.each([
    { micron: [500], breakPa: 0, left: 6.57895e-4 },
    { micron: [4500, 4500, 500], breakPa: 0, left: 2.3065e-8 },
    { micron: [1500, 1500, 500], breakPa: 0, left: 2.56278e-9 },
    { micron: [500, 500, 500], breakPa: 0, left: 2.84754e-10 },
    { micron: [300, 300, 300], breakPa: 0, left: 6.15068e-11 },
    { micron: [4000, 1500, 500], breakPa: 0, left: 6.83409e-9 },
    { micron: [4000, 1500, 500], breakPa: TWO_PSI_PA, left: 5.29485e-9 },
  ])(
    'after $micron micron, broken to $breakPa Pa (gauge), is $left',
    ({ micron, breakPa, left }) => {
      const cycles = micron.map((depth) => ({ endPa: paFromMicron(depth), brokenToPa: null }));
      const share = airLeftShare(cycles, STANDARD_ATMOSPHERE_PA + breakPa);
      expect(Math.abs((share ?? 0) / left - 1)).toBeLessThan(1e-5);
    },
  );

  test('is more where the vacuum was broken to less, and unknown where no depth was seen', () => {
    const half = [
      { endPa: 100, brokenToPa: 50_000 },
      { endPa: 100, brokenToPa: null },
    ];
    expect(airLeftShare(half, 100_000)).toBeCloseTo((100 / 101_325) * (100 / 50_000), 12);
    expect(airLeftShare([{ endPa: null, brokenToPa: null }], 100_000)).toBeNull();
  });
});

interface Part {
  readonly mark: MarkKind | null;
  readonly lengthS: number;
  readonly controls: Controls;
  /** It ends earlier, once it is as deep. */
  readonly toPa?: number;
}
const BREAK: Controls = { ...STANDING, nitrogenPa: STANDARD_ATMOSPHERE_PA };

/** Down, held, broken, and so on, by the simulated rig; every reading of a sensor that reaches the atmosphere. */
function played(
  parts: readonly Part[],
  { leak = 0, temperatureC = 20 }: { leak?: number; temperatureC?: number | null } = {},
) {
  const wet: ReservoirSetup[] = [
    { gas: 'water', capacityMolPerPa: 4e-6, exchangeS: 150, startPa: 700 },
    { gas: 'water', capacityMolPerPa: 4e-6, exchangeS: 900, startPa: 400 },
  ];
  const inflows =
    leak === 0
      ? []
      : [
          {
            name: 'leak',
            intoVacuumPaM3PerS: leak,
            from: 'outside' as const,
            law: 'opening' as const,
            chargePa: 0,
            endsWhenTightened: true,
          },
        ];
  const setup = smallRig(
    { airPa: 100_000, waterPa: 700, reservoirs: leak === 0 ? wet : [], inflows },
    { displacementM3PerS: 3e-4, ultimatePa: 5 },
  );
  let rig = createRig({ ...setup, nitrogen: { section: 0, conductanceM3PerS: 1e-3 } });
  const history = new History();
  const marks: Mark[] = [];
  let nowS = 0;
  for (const { mark, lengthS, controls, toPa = 0 } of parts) {
    if (mark !== null) {
      marks.push({ id: marks.length + 1, kind: mark, elapsedS: nowS, text: '', madeBy: 'hand' });
    }
    for (const endS = nowS + lengthS; nowS < endS && totalPressurePa(rig, 0) > toPa;) {
      rig = advance(rig, 1, controls);
      nowS += 1;
      const pressurePa = totalPressurePa(rig, 0) * (1 + 0.001 * Math.sin(nowS * 7.7));
      history.insert({ elapsedS: nowS, pressurePa, condition: 'ok', temperatureC });
    }
  }
  const told = (fields: Partial<Sheet>, entries: readonly SheetEntry[] = []) =>
    tripleTold(history, marks, [{ elapsedS: 0, fields }, ...entries], nowS);
  return { history, marks, nowS, told };
}

const down = (lengthS: number, toPa = 40): Part => ({
  mark: 'pump_on',
  lengthS,
  controls: PUMPING,
  toPa,
});
const hold = (lengthS: number): Part => ({ mark: 'isolated', lengthS, controls: STANDING });
const broken: Part = { mark: 'nitrogen_break', lengthS: 120, controls: BREAK };
const twice = [down(900), hold(420), broken, down(900), hold(420)];
const thrice = [...twice, broken, down(900), hold(420)];

const plan = triplePlanOf('au-nz-triple');
if (plan === null) throw new Error('that rule has evacuations before the last');

describe('a job of three evacuations', () => {
  const { told } = played(thrice);

  test('has three cycles, each with its depth, its hold and what it was broken to', () => {
    const { cycles, airLeft } = told({ triplePlan: plan });
    expect(cycles).toHaveLength(3);
    expect(cycles.map(({ isBroken }) => isBroken)).toEqual([true, true, false]);
    expect(cycles.every(({ hasReached }) => hasReached)).toBe(true);
    for (const { depthPa, endPa } of cycles) {
      expect(depthPa).toBeGreaterThan(35);
      expect(depthPa).toBeLessThan(paFromMicron(500));
      // It rose in its hold: that is what was broken.
      expect(endPa).toBeGreaterThan(depthPa ?? NaN);
    }
    // Held for seven minutes each; the rule wants that of the last one alone, for an hour.
    expect(cycles.map(({ hasHeld }) => hasHeld)).toEqual([true, true, false]);
    const [first, second] = cycles;
    expect(Math.abs((first?.brokenToPa ?? 0) / STANDARD_ATMOSPHERE_PA - 1)).toBeLessThan(0.01);
    const shares = cycles.map(({ endPa }) => (endPa ?? NaN) / STANDARD_ATMOSPHERE_PA);
    const all = shares.reduce((product, share) => product * share, 1);
    expect(Math.abs((airLeft ?? 0) / all - 1)).toBeLessThan(0.02);
    expect(second?.holds).toHaveLength(1);
  });

  test('dries, each rise lower than the one before', () => {
    const { trend } = told({ triplePlan: plan });
    expect(trend.kind).toBe('drying');
    expect(trend.kind === 'drying' && trend.levelling).toBe(true);
  });

  test('asks for what comes next: depth, hold, nitrogen, and then nothing', () => {
    const after = (parts: readonly Part[]) => played(parts).told({ triplePlan: plan }).next;
    expect(after([down(5)])).toMatchObject({ kind: 'pull_down', number: 1, of: 3 });
    expect(after([down(900)])).toMatchObject({ kind: 'break', number: 1 });
    expect(after([down(900), broken])).toMatchObject({ kind: 'pull_down', number: 2 });
    const last = [down(900), broken, down(900), broken, down(900)];
    expect(after(last)).toMatchObject({ kind: 'hold', number: 3, holdS: 3600 });
    expect(after([...last, hold(3650)])).toMatchObject({ kind: 'done', number: 3 });
    expect(played([down(900)]).told({}).next).toBeNull();
  });
});

describe('the moisture trend is not said', () => {
  test('of a leak, whose rises are alike', () => {
    expect(played(twice, { leak: 2e-4 }).told({}).trend).toMatchObject({
      kind: 'same',
      levelling: false,
    });
  });

  test('of holds unlike in start, length or temperature', () => {
    const why = (parts: readonly Part[], temperatureC: number | null = 20) => {
      const { trend } = played(parts, { temperatureC }).told({});
      return trend.kind === 'unlike' ? trend.why : trend.kind;
    };
    expect(why([down(900), hold(420), broken, down(900), hold(120)])).toEqual([
      'too_short',
      'length',
    ]);
    expect(why([down(900), hold(300), broken, down(900), hold(900)])).toEqual(['length']);
    expect(why([down(900, 80), hold(420), broken, down(900, 20), hold(420)])).toEqual(['start']);
    expect(why(twice, null)).toEqual(['temperature_unknown']);
    expect(why([down(900), hold(420)])).toBe('too_few');
  });

  test('but by the metal as it was entered for each hold', () => {
    const { told } = played(twice, { temperatureC: null });
    const at = (elapsedS: number, metalTemperatureC: number): SheetEntry => ({
      elapsedS,
      fields: { metalTemperatureC },
    });
    expect(told({}, [at(200, 20), at(1150, 20.5)]).trend.kind).toBe('drying');
    expect(told({}, [at(200, 20), at(1150, 26)]).trend).toMatchObject({
      kind: 'unlike',
      why: ['temperature'],
    });
    // Once is not for both.
    expect(told({}, [at(200, 20)]).trend).toMatchObject({ why: ['temperature_unknown'] });
  });
});

describe('what nobody marked as nitrogen', () => {
  const unmarked = (part: Part): Part => ({ ...part, mark: null });

  test.each([10, 30])(
    'is no break where it is a gross leak of %d Pa/s: nothing is done, and of the air nothing is known',
    (risePaPerS) => {
      const history = new History();
      const marks: Mark[] = [];
      let nowS = 0;
      let pressurePa = 100_000;
      const mark = (kind: MarkKind) =>
        marks.push({ id: marks.length + 1, kind, elapsedS: nowS, text: '', madeBy: 'hand' });
      const see = () => {
        nowS += 1;
        history.insert({ elapsedS: nowS, pressurePa, condition: 'ok', temperatureC: 20 });
      };
      for (let hold = 0; hold < 3; hold += 1) {
        mark('pump_on');
        for (let s = 0; s < 400; s += 1) {
          pressurePa = 30 + (pressurePa - 30) * 0.97;
          see();
        }
        mark('isolated');
        for (let s = 0; s < 240; s += 1) {
          pressurePa += risePaPerS;
          see();
        }
      }
      const { cycles, next, airLeft } = tripleTold(
        history,
        marks,
        [{ elapsedS: 0, fields: { triplePlan: plan } }],
        nowS,
      );
      expect(cycles).toMatchObject([{ isBroken: false, unmarkedFill: 'stands' }]);
      // It went on rising: nobody is asked whether that was nitrogen.
      expect(cycles.flatMap(({ restedFills }) => restedFills)).toEqual([]);
      expect(next).toMatchObject({ kind: 'pull_down', number: 1, of: 3 });
      expect(airLeft).toBeNull();
    },
  );

  const low = unmarked({ ...broken, controls: { ...BREAK, nitrogenPa: 30_000 } });
  test.each([
    { before: 'a marked hold', parts: [down(900), hold(60), low, down(900)] },
    { before: 'pumping', parts: [down(900), low, down(900)] },
  ])(
    'after $before is asked about once it was pumped again, and counts when marked',
    ({ parts }) => {
      const { history, marks, nowS, told } = played(parts);
      const { cycles } = told({});
      expect(cycles.map(({ isBroken }) => isBroken)).toEqual([false]);
      // Of what still stands nobody is asked: it may be going on.
      const before = tripleTold(history, marks.slice(0, -1), [], (marks.at(-1)?.elapsedS ?? 0) - 2);
      expect(before.cycles.flatMap(({ restedFills }) => restedFills)).toEqual([]);
      const [fill, ...others] = cycles.flatMap(({ restedFills }) => restedFills);
      expect(others).toEqual([]);
      expect(fill?.restPa).toBeCloseTo(30_000, -3);
      const again = marks.find(({ kind, elapsedS }) => kind === 'pump_on' && elapsedS > 1);
      expect(fill?.atS).toBeCloseTo((again?.elapsedS ?? 0) - low.lengthS, -1);
      const mark: Mark = {
        id: 99,
        kind: 'nitrogen_break',
        elapsedS: fill?.atS ?? 0,
        text: '',
        madeBy: 'hand',
      };
      const counted = tripleTold(history, [...marks, mark], [], nowS);
      expect(counted.cycles.map(({ isBroken }) => isBroken)).toEqual([true, false]);
      expect(counted.cycles.flatMap(({ restedFills }) => restedFills)).toEqual([]);
      expect(counted.airLeft).not.toBeNull();
    },
  );

  test('is one where it came to the atmosphere', () => {
    const parts = [down(900), unmarked(broken), down(900), unmarked(broken), down(900)];
    const { cycles, airLeft } = played(parts).told({ triplePlan: plan });
    expect(cycles.map(({ isBroken }) => isBroken)).toEqual([true, true, false]);
    expect(airLeft).not.toBeNull();
  });

  test('counts neither before it was pumped again, nor with what had been reached before', () => {
    const { history } = played([down(900), hold(420), down(900)]);
    const stage = (name: StageName, sinceS: number, recognisedBy: 'curve' | 'mark' = 'curve') => ({
      name,
      sinceS,
      recognisedBy,
      alternatives: [],
    });
    const filled = [stage('pull_down', 0), stage('rise', 60), stage('nitrogen_break', 100)];
    expect(evacuationCycles(history, filled, 200)).toMatchObject([{ unmarkedFill: 'stands' }]);
    const again = [...filled, stage('pull_down', 150)];
    expect(evacuationCycles(history, again, 200)).toMatchObject([
      { fromS: 0, unmarkedFill: 'pumped_since', holds: [], isBroken: false },
    ]);
    // The mark that comes a little late says what it was; much later it does not.
    const late = (sinceS: number) => [...filled, stage('nitrogen_break', sinceS, 'mark')];
    expect(evacuationCycles(history, late(120), 200)).toMatchObject([
      { toS: 100, unmarkedFill: 'none', isBroken: true },
    ]);
    expect(evacuationCycles(history, late(180), 200)).toMatchObject([
      { toS: 180, unmarkedFill: 'stands', isBroken: true },
    ]);
  });
});

test('air that is let in undoes what was before', () => {
  const { history } = played([down(900), broken, down(900)]);
  const stage = (name: 'pull_down' | 'vented' | 'nitrogen_break', sinceS: number) => ({
    name,
    sinceS,
    recognisedBy: 'mark' as const,
    alternatives: [],
  });
  const stages = [
    stage('pull_down', 0),
    stage('nitrogen_break', 30),
    stage('pull_down', 40),
    stage('vented', 60),
    stage('pull_down', 180),
  ];
  expect(evacuationCycles(history, stages, 260)).toMatchObject([{ fromS: 180, isBroken: false }]);
});
