import { describe, expect, it } from 'vitest';
import { advance } from '../../simulators/physics/advance.ts';
import { iceFraction, puddleTemperatureK } from '../../simulators/physics/puddle.ts';
import { createRig, totalPressurePa } from '../../simulators/physics/rig-state.ts';
import type { RigState } from '../../simulators/physics/rig-state.ts';
import { PUMPING, smallRig, STANDING } from '../support/small-rig.ts';

/** 5 g of water; heat as if it lay in a bath that nothing cools. */
const IN_A_BATH = {
  waterKg: 5e-3,
  areaM2: 1,
  evaporationShare: 1,
  metalConductanceWPerK: 1e6,
};
/** The same water where only a strip of metal warms it. */
const ON_METAL = {
  waterKg: 5e-3,
  areaM2: 6e-3,
  evaporationShare: 0.02,
  metalConductanceWPerK: 0.4,
};

function puddleOf(state: RigState) {
  const puddle = state.sections[0]?.puddle;
  if (!puddle) throw new Error('the rig has no section');
  return puddle;
}

describe('boiling water against published vapour pressures', () => {
  it.each([
    // IAPWS R7-97 at 20 °C, and IAPWS R14-08 at 0 °C (over ice; the liquid has 611.21 Pa) and −10 °C.
    [20, 2339.215],
    [0, 611.15348],
    [-10, 259.87381],
  ])('holds the pressure at its vapour pressure while it lasts, at %d °C', (celsius, published) => {
    const setup = smallRig(
      { airPa: 0, puddle: IN_A_BATH },
      { displacementM3PerS: 2e-4 },
      celsius + 273.15,
    );
    const pumped = advance(createRig(setup), 60, PUMPING);
    expect(puddleOf(pumped).mol).toBeGreaterThan(0.1);
    expect(totalPressurePa(pumped, 0) / published).toBeCloseTo(1, 3);
    const held = advance(pumped, 600, STANDING);
    expect(totalPressurePa(held, 0) / published).toBeCloseTo(1, 4);
  });

  it('cools itself to the triple point or below where heat is short, and then is ice', () => {
    // Triple point: 611.657 Pa, 4588 micron (IAPWS); a plateau near it or below, for minutes.
    const rig = createRig(smallRig({ airPa: 0, waterPa: 2000, puddle: ON_METAL }));
    const plateau = [300, 360, 420, 480, 540].map((timeS) => advance(rig, timeS, PUMPING));
    for (const state of plateau) {
      expect(totalPressurePa(state, 0)).toBeLessThan(1.05 * 611.657);
      expect(totalPressurePa(state, 0)).toBeGreaterThan(0.4 * 611.657);
      expect(puddleTemperatureK(puddleOf(state))).toBeLessThan(273.17);
    }
    expect(iceFraction(puddleOf(advance(rig, 900, PUMPING)))).toBe(1);
  });

  it('is gone after a while, and the pressure falls', () => {
    const rig = createRig(smallRig({ airPa: 0, waterPa: 2000, puddle: ON_METAL }));
    const dried = advance(rig, 7200, PUMPING);
    expect(puddleOf(dried).mol).toBe(0);
    expect(totalPressurePa(dried, 0)).toBeLessThan(1);
  });
});
