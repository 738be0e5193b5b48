/** What breaking a vacuum with nitrogen leaves of what was there before. */
import { describe, expect, it } from 'vitest';
import { advance } from '../../simulators/physics/advance.ts';
import {
  contentMol,
  createRig,
  totalPressurePa,
  type RigState,
} from '../../simulators/physics/rig-state.ts';
import type { ReservoirSetup } from '../../simulators/physics/section-setup.ts';
import { PUMPING, smallRig, STANDING, type SmallSection } from '../support/small-rig.ts';

const ATMOSPHERE_PA = 101_325;
/** 1 micron of mercury. */
const MICRON_PA = ATMOSPHERE_PA / 760_000;

/** Down to a pressure, by the time that an ideal pump takes for it: t = V/S ln(p₀/p₁). */
function pumpedTo(state: RigState, pressurePa: number): RigState {
  const timeS = (5e-3 / 2e-3) * Math.log(totalPressurePa(state, 0) / pressurePa);
  return advance(state, timeS, PUMPING);
}

function broken(state: RigState): RigState {
  return advance(state, 600, { ...STANDING, nitrogenPa: ATMOSPHERE_PA });
}

function started(section: SmallSection): RigState {
  const nitrogen = { section: 0, conductanceM3PerS: 1e-4 };
  return createRig({ ...smallRig(section), nitrogen });
}

describe('nitrogen breaks', () => {
  it.each([
    // Standard practice, residual share = Π(pᵢ/p_break), recomputed for 760 000 micron.
    { stages: [500], left: 6.57895e-4 },
    { stages: [4500, 4500, 500], left: 2.3065e-8 },
    { stages: [1500, 1500, 500], left: 2.56278e-9 },
    { stages: [4000, 1500, 500], left: 6.83409e-9 },
  ])('leave of a gas the product of the pressure ratios: $stages micron', ({ stages, left }) => {
    // The model has one dry gas for air and nitrogen, so another gas stands here for the air that is
    // to go: alone at the start, with nothing that holds it or brings more of it.
    let state = started({ airPa: 0, refrigerantPa: ATMOSPHERE_PA });
    const before = contentMol(state).refrigerant;
    stages.forEach((micron, turn) => {
      state = pumpedTo(turn === 0 ? state : broken(state), micron * MICRON_PA);
      expect(Math.abs(totalPressurePa(state, 0) / (micron * MICRON_PA) - 1)).toBeLessThan(5e-3);
    });
    expect(Math.abs(contentMol(state).refrigerant / before / left - 1)).toBeLessThan(0.01);
  });

  it('do not so dilute water that a wall holds', () => {
    const wet: ReservoirSetup = {
      gas: 'water',
      capacityMolPerPa: 1e-5,
      exchangeS: 600,
      startPa: 1000,
    };
    let state = started({ airPa: ATMOSPHERE_PA - 1000, waterPa: 1000, reservoirs: [wet] });
    const before = contentMol(state).water;
    state = pumpedTo(broken(pumpedTo(state, 200)), 200);
    expect(contentMol(state).water / before).toBeGreaterThan(0.1);
  });
});
