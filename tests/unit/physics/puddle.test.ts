import { describe, expect, it } from 'vitest';
import { liquidVapourPressurePa } from '../../../protocol/water.ts';
import { advance } from '../../../simulators/physics/advance.ts';
import {
  iceFraction,
  isPossible,
  puddleAt,
  puddleTemperatureK,
} from '../../../simulators/physics/puddle.ts';
import { createRig, totalPressurePa } from '../../../simulators/physics/rig-state.ts';
import { PUMPING, smallRig, STANDING } from '../../support/small-rig.ts';

describe('a puddle', () => {
  it('knows its temperature and its ice by its heat', () => {
    expect(puddleTemperatureK(puddleAt(2, 293.15))).toBeCloseTo(293.15, 9);
    expect(iceFraction(puddleAt(2, 293.15))).toBe(0);
    expect(puddleTemperatureK(puddleAt(2, 253.15))).toBeCloseTo(253.15, 9);
    expect(iceFraction(puddleAt(2, 253.15))).toBe(1);
    // Half frozen: half the heat of fusion, 333.4 kJ/kg · 18.015 g/mol = 6006 J/mol, is gone.
    const half = { mol: 2, enthalpyJ: -6006.3 };
    expect(puddleTemperatureK(half)).toBeCloseTo(273.16, 9);
    expect(iceFraction(half)).toBeCloseTo(0.5, 4);
  });

  it('can be no less than nothing, nor absurdly cold or hot', () => {
    expect(isPossible({ mol: -1e-9, enthalpyJ: 0 })).toBe(false);
    expect(isPossible({ mol: 1, enthalpyJ: -1e6 })).toBe(false);
    expect(isPossible({ mol: 1, enthalpyJ: 1e6 })).toBe(false);
    expect(isPossible({ mol: 0, enthalpyJ: 0 })).toBe(true);
  });

  it('freezes by its own evaporation alone where no heat comes in', () => {
    const puddle = { waterKg: 0.01, areaM2: 0.01, evaporationShare: 0.1, metalConductanceWPerK: 0 };
    const rig = createRig(smallRig({ airPa: 0, waterPa: 2000, puddle }));
    let state = rig;
    while (iceFraction(state.sections[0]?.puddle ?? { mol: 0, enthalpyJ: 0 }) < 1) {
      state = advance(state, 1, PUMPING);
    }
    // Heat balance, from 20 °C: cooling takes 4.22 · 20 / 2460 of it, freezing 333.4 / 2834 of the
    // rest: 3.4 % and 11.8 %, together 14.8 % (an exponential in each case, so a little less).
    const evaporated = 1 - (state.sections[0]?.puddle.mol ?? 0) / (0.01 / 0.018015268);
    expect(evaporated).toBeGreaterThan(0.13);
    expect(evaporated).toBeLessThan(0.155);
  });

  it('stays at the triple point while ice and liquid lie together, whatever heat comes in', () => {
    const puddle = { waterKg: 0.1, areaM2: 0.1, evaporationShare: 1, metalConductanceWPerK: 50 };
    const rig = createRig(smallRig({ airPa: 0, waterPa: 600, puddle }));
    const [section, ...others] = rig.sections;
    if (!section) throw new Error('the rig has no section');
    const half = { mol: section.puddle.mol, enthalpyJ: section.puddle.mol * -3003 };
    const thawing = { ...rig, sections: [{ ...section, puddle: half }, ...others] };
    // 50 W/K · 20 K for 10 s are 10 kJ of the 17 kJ that half of it takes to melt.
    const state = advance(thawing, 10, STANDING);
    expect(totalPressurePa(state, 0)).toBeCloseTo(611.657, 3);
    expect(iceFraction(state.sections[0]?.puddle ?? half)).toBeLessThan(0.3);
    expect(iceFraction(state.sections[0]?.puddle ?? half)).toBeGreaterThan(0.1);
  });

  it('takes back vapour that is above its vapour pressure', () => {
    const puddle = { waterKg: 0.01, areaM2: 0.1, evaporationShare: 1, metalConductanceWPerK: 100 };
    const rig = createRig(smallRig({ airPa: 0, waterPa: 4000, puddle }));
    const state = advance(rig, 300, STANDING);
    expect(state.sections[0]?.puddle.mol).toBeGreaterThan(0.01 / 0.018015268);
    expect(totalPressurePa(state, 0)).toBeCloseTo(liquidVapourPressurePa(293.15), 0);
  });
});
