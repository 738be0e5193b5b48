/** What comes into a rig from outside: leaks of each kind, and nitrogen. */
import { describe, expect, it } from 'vitest';
import { advance } from '../../../simulators/physics/advance.ts';
import type { RigSetup } from '../../../simulators/physics/rig-setup.ts';
import {
  createRig,
  partialPressuresPa,
  totalPressurePa,
} from '../../../simulators/physics/rig-state.ts';
import type { InflowSetup } from '../../../simulators/physics/section-setup.ts';
import { leakOf, smallRig, STANDING, type SmallSection } from '../../support/small-rig.ts';

const VOLUME_M3 = 5e-3;

function riseOf(inflow: InflowSetup, timeS: number, section: SmallSection = {}): number {
  const start = createRig(smallRig({ airPa: 10, inflows: [inflow], ...section }));
  return totalPressurePa(advance(start, timeS, STANDING), 0) - totalPressurePa(start, 0);
}

describe('a leak from outside', () => {
  it('alone rises along a straight line, to a millionth', () => {
    for (const timeS of [1, 60, 3600, 36_000]) {
      expect(riseOf(leakOf(1e-3), timeS) / ((1e-3 * timeS) / VOLUME_M3)).toBeCloseTo(1, 6);
    }
  });

  it('ends at the atmosphere and does not go beyond', () => {
    const filled = riseOf(leakOf(1), 36_000) + 10;
    expect(Math.abs(filled / 101_325 - 1)).toBeLessThan(1e-3);
  });

  it('brings in moisture by the share that it has outside', () => {
    const rig = smallRig({ airPa: 0, inflows: [leakOf(1e-2)] });
    const humid = { ...rig, surroundings: { ...rig.surroundings, humidityPa: 2000 } };
    const { air, water } = partialPressuresPa(advance(createRig(humid), 600, STANDING), 0);
    expect(water / (air + water)).toBeCloseTo(2000 / 101_325, 9);
    expect(air + water).toBeCloseTo((1e-2 * 600) / VOLUME_M3, 6);
  });

  it('ends when it can be tightened and is', () => {
    const tight = { ...STANDING, tightened: true };
    const after = (inflow: InflowSetup) => {
      const start = createRig(smallRig({ airPa: 10, inflows: [inflow] }));
      return totalPressurePa(advance(start, 100, tight), 0);
    };
    expect(after(leakOf(1e-3))).toBeCloseTo(10, 9);
    expect(after({ ...leakOf(1e-3), endsWhenTightened: false })).toBeCloseTo(30, 6);
  });
});

describe('a leak from a charge', () => {
  const CHARGE: InflowSetup = { ...leakOf(1e-2), from: 'charge', chargePa: 800_000 };

  it('brings in refrigerant alone, and stays choked to half of the charge’s pressure', () => {
    const start = createRig(smallRig({ airPa: 200_000, inflows: [CHARGE] }));
    const { air, water, refrigerant } = partialPressuresPa(advance(start, 600, STANDING), 0);
    expect(refrigerant).toBeCloseTo((1e-2 * 600) / VOLUME_M3, 6);
    expect(water).toBe(0);
    expect(air).toBeCloseTo(200_000, 6);
  });

  it('wanes above that and ends at the charge’s pressure', () => {
    // Three quarters of the charge: √(1 − 0.5²) of the choked flow.
    const share = riseOf(CHARGE, 1, { airPa: 600_000 }) / (1e-2 / VOLUME_M3);
    expect(share).toBeCloseTo(Math.sqrt(0.75), 4);
    expect(riseOf(CHARGE, 100, { airPa: 800_000 })).toBeCloseTo(0, 6);
  });
});

describe('permeation', () => {
  it('is in proportion to the difference of pressure', () => {
    const rubber: InflowSetup = { ...leakOf(1e-3), law: 'permeation' };
    const fullPaPerS = 1e-3 / VOLUME_M3;
    const rateAt = (airPa: number) => riseOf(rubber, 10, { airPa }) / 10 / fullPaPerS;
    expect(rateAt(0)).toBeCloseTo(1, 4);
    expect(rateAt(101_325 / 4)).toBeCloseTo(0.75, 4);
    expect(rateAt(101_325 / 2)).toBeCloseTo(0.5, 4);
    expect(rateAt(101_325)).toBeCloseTo(0, 9);
  });
});

describe('nitrogen', () => {
  const filled = (setup: RigSetup, nitrogenPa: number, timeS: number) =>
    advance(createRig({ ...setup, nitrogen: { section: 0, conductanceM3PerS: 5e-4 } }), timeS, {
      ...STANDING,
      nitrogenPa,
    });

  it('fills to the regulator’s pressure along an exponential', () => {
    // V/C = 5 L / 0.5 L/s = 10 s.
    const halfway = totalPressurePa(filled(smallRig({ airPa: 100 }), 110_000, 10), 0);
    const expected = 110_000 - 109_900 * Math.exp(-1);
    expect(halfway / expected).toBeCloseTo(1, 3);
    const full = filled(smallRig({ airPa: 100 }), 110_000, 600);
    expect(totalPressurePa(full, 0)).toBeCloseTo(110_000, 6);
    expect(full.enteredMol.air).toBeCloseTo((109_900 * VOLUME_M3) / (8.314462618 * 293.15), 9);
  });

  it('never flows back, neither from a higher pressure nor when what is there warms', () => {
    const high = filled(smallRig({ airPa: 50_000 }), 20_000, 600);
    expect(totalPressurePa(high, 0)).toBeCloseTo(50_000, 6);
    expect(high.enteredMol.air).toBe(0);
    const rig = smallRig({ airPa: 20_000 });
    const warming = { ...rig, surroundings: { ...rig.surroundings, driftKPerS: 5e-3 } };
    const warm = filled(warming, 20_000, 1000);
    expect(totalPressurePa(warm, 0) / ((20_000 * 298.15) / 293.15)).toBeCloseTo(1, 9);
    expect(warm.enteredMol.air).toBe(0);
  });

  it('lets in nothing where the rig has no place for it', () => {
    const state = advance(createRig(smallRig({ airPa: 100 })), 60, {
      ...STANDING,
      nitrogenPa: 110_000,
    });
    expect(totalPressurePa(state, 0)).toBeCloseTo(100, 9);
  });
});
