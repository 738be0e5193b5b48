import { describe, expect, it } from 'vitest';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { advance } from '../../../simulators/physics/advance.ts';
import { extrapolatedStep } from '../../../simulators/physics/extrapolated-step.ts';
import type { RigSetup } from '../../../simulators/physics/rig-setup.ts';
import type { Controls } from '../../../simulators/physics/controls.ts';
import { GASES } from '../../../simulators/physics/gases.ts';
import { contentMol, createRig, totalPressurePa } from '../../../simulators/physics/rig-state.ts';
import type { RigState } from '../../../simulators/physics/rig-state.ts';
import { HOSE, PUMPING, smallRig, STANDING } from '../../support/small-rig.ts';

/** Everything that a technician can do, one after the other. */
const DAY: readonly (readonly [number, Controls])[] = [
  [30, { ...PUMPING, pumpOn: false, ballastOpen: true }],
  [900, { ...PUMPING, ballastOpen: true }],
  [1500, PUMPING],
  [600, { ...PUMPING, openings: { isolation: 0 } }],
  [300, STANDING],
  [120, { ...STANDING, nitrogenPa: 110_000 }],
  [60, { ...PUMPING, pumpOn: false, coresOut: true, tightened: true }],
  [600, { ...PUMPING, ballastOpen: true }],
];

/** Two volumes alike, 4 m of thin line between them, so that no process is much faster than another. */
const TWO_SECTIONS: RigSetup = {
  ...smallRig(),
  sections: [
    ...smallRig({
      airPa: 800,
      waterPa: 300,
      reservoirs: [{ gas: 'water', capacityMolPerPa: 3e-6, exchangeS: 60, startPa: 300 }],
    }).sections,
    ...smallRig({ airPa: 700, waterPa: 100 }).sections,
  ],
  ducts: [{ ...HOSE, diameterM: 6e-3, lengthM: 4, valve: null }],
  pump: { ...smallRig().pump, section: 1, ultimatePa: 3 },
};

describe('conservation', () => {
  it.each(ALL_SCENARIOS.map((scenario) => [scenario.card.name, scenario] as const))(
    'neither makes nor loses a gas: %s',
    (_, { rig }) => {
      let state = createRig(rig);
      const before = contentMol(state);
      for (const [durationS, controls] of DAY) {
        state = advance(state, durationS, controls);
        const now = contentMol(state);
        for (const gas of GASES) {
          const passedMol = before[gas] + state.enteredMol[gas];
          const off = now[gas] + state.pumpedMol[gas] - passedMol;
          expect(Math.abs(off), gas).toBeLessThanOrEqual(1e-9 * passedMol);
        }
      }
      // Otherwise the balance would say little.
      expect(state.pumpedMol.water).toBeGreaterThan(0.3 * before.water);
    },
  );
});

describe('accuracy', () => {
  const steps = (from: RigState, stepS: number, count: number): number => {
    let state = from;
    for (let step = 0; step < count; step += 1) {
      state = extrapolatedStep(state, stepS, PUMPING).state;
    }
    return totalPressurePa(state, 0);
  };

  it('is of second order: half the step leaves a quarter of the error', () => {
    // Nonlinear throughout: the conductance falls with the pressure, a wall gives off water.
    const start = createRig(TWO_SECTIONS);
    const exact = steps(start, 1 / 128, 40 * 128);
    const [whole = NaN, half = NaN, quarter = NaN] = [0.5, 0.25, 0.125].map(
      (stepS) => steps(start, stepS, 40 / stepS) - exact,
    );
    expect(Math.log2(whole / half)).toBeGreaterThan(1.8);
    expect(Math.log2(whole / half)).toBeLessThan(2.2);
    expect(Math.log2(half / quarter)).toBeGreaterThan(1.8);
    expect(Math.log2(half / quarter)).toBeLessThan(2.2);
  });

  it.each(ALL_SCENARIOS.map((scenario) => [scenario.card.name, scenario] as const))(
    'comes ever nearer with finer steps, behind a hose that empties in no time: %s',
    (_, { rig }) => {
      const start = advance(createRig(rig), 60, PUMPING);
      const exact = steps(start, 1 / 64, 16 * 64);
      const [coarse = NaN, fine = NaN] = [2, 0.25].map((stepS) =>
        Math.abs(steps(start, stepS, 16 / stepS) / exact - 1),
      );
      // The largest system still falls by half meanwhile, in eight steps of 2 s.
      expect(coarse).toBeLessThan(2e-3);
      expect(fine).toBeLessThan(coarse / 4);
    },
  );

  it.each(ALL_SCENARIOS.map((scenario) => [scenario.card.name, scenario] as const))(
    'comes to the same in one go and second by second: %s',
    (_, { rig }) => {
      const start = createRig(rig);
      let secondBySecond = start;
      for (let second = 0; second < 600; second += 1) {
        secondBySecond = advance(secondBySecond, 1, PUMPING);
      }
      const inOneGo = advance(start, 600, PUMPING);
      const ratio = totalPressurePa(inOneGo, 0) / totalPressurePa(secondBySecond, 0);
      expect(Math.abs(ratio - 1)).toBeLessThan(2e-3);
      expect(inOneGo.elapsedS).toBe(600);
    },
  );

  it('gives the same state for the same input', () => {
    for (const { rig } of ALL_SCENARIOS) {
      const once = advance(createRig(rig), 300, PUMPING);
      expect(advance(createRig(rig), 300, PUMPING)).toEqual(once);
    }
  });

  it('refuses a duration that is none', () => {
    const rig = createRig(smallRig());
    expect(() => advance(rig, -1, STANDING)).toThrow(RangeError);
    expect(() => advance(rig, NaN, STANDING)).toThrow(RangeError);
    expect(() => advance(rig, Infinity, STANDING)).toThrow(RangeError);
    expect(advance(rig, 0, STANDING)).toEqual(rig);
  });
});
