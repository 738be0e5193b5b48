import { describe, expect, it } from 'vitest';
import { advance } from '../../../simulators/physics/advance.ts';
import { ductConductanceM3PerS } from '../../../simulators/physics/duct-conductance.ts';
import { flowFactorsOf } from '../../../simulators/physics/gases.ts';
import { openingShare } from '../../../simulators/physics/inflow.ts';
import { GAS_CONSTANT } from '../../../protocol/gas-constants.ts';
import { rigSetupSchema } from '../../../simulators/physics/rig-setup.ts';
import type { DuctSetup, RigSetup } from '../../../simulators/physics/rig-setup.ts';
import { createRig, totalPressurePa } from '../../../simulators/physics/rig-state.ts';
import { HOSE, PUMPING, smallRig, STANDING } from '../../support/small-rig.ts';

const OPEN = { coreOut: false, opening: 1 };
const AIR = flowFactorsOf({ air: 1, water: 0, refrigerant: 0 });
const VAPOUR = flowFactorsOf({ air: 0, water: 1, refrigerant: 0 });

/** A system of 5 L at `systemPa` and a hose of 0.1 L at `hosePa` with the pump. */
function systemAndHose(systemPa: number, hosePa: number, duct: Partial<DuctSetup> = {}): RigSetup {
  const rig = smallRig({ airPa: systemPa }, { ultimatePa: 3, ballastPa: 200 });
  return {
    ...rig,
    sections: [...rig.sections, ...smallRig({ airPa: hosePa, volumeM3: 1e-4 }).sections],
    ducts: [{ ...HOSE, ...duct }],
    pump: { ...rig.pump, section: 1 },
  };
}

describe('valves', () => {
  it('separate system from pump and hose on isolation', () => {
    const state = advance(createRig(systemAndHose(100, 100)), 600, { ...STANDING, pumpOn: true });
    expect(totalPressurePa(state, 0)).toBeCloseTo(100, 9);
    expect(totalPressurePa(state, 1)).toBeCloseTo(3, 6);
  });

  it('let the pressures meet again on reopening', () => {
    const state = advance(createRig(systemAndHose(30, 90_000)), 60, {
      ...PUMPING,
      pumpOn: false,
    });
    // Boyle: (5 · 30 + 0.1 · 90 000) / 5.1 Pa.
    const mixedPa = (5 * 30 + 0.1 * 90_000) / 5.1;
    expect(totalPressurePa(state, 0)).toBeCloseTo(mixedPa, 6);
    expect(totalPressurePa(state, 1)).toBeCloseTo(mixedPa, 6);
  });
});

describe('the pump', () => {
  it('goes down to its ultimate pressure, and to a higher one while the ballast is open', () => {
    const open = advance(createRig(systemAndHose(1000, 1000)), 3600, {
      ...PUMPING,
      ballastOpen: true,
    });
    expect(totalPressurePa(open, 0)).toBeCloseTo(203, 3);
    const closed = advance(open, 3600, PUMPING);
    expect(totalPressurePa(closed, 0)).toBeCloseTo(3, 3);
    const reopened = advance(closed, 3600, { ...PUMPING, ballastOpen: true });
    expect(totalPressurePa(reopened, 0)).toBeCloseTo(203, 3);
  });

  it('carries off less vapour the colder it is, in frost as well', () => {
    const leftMol = [253.15, 268.15, 283.15].map((temperatureK) => {
      const { pump } = advance(
        createRig(smallRig({ airPa: 1000, waterPa: 100 }, { ballastShare: 0.1 }, temperatureK)),
        60,
        { ...PUMPING, ballastOpen: true },
      );
      return pump.oilWaterMol;
    });
    expect(leftMol).toEqual([...leftMol].sort((one, other) => other - one));
    expect(leftMol.at(-1)).toBeLessThan(0.9 * (leftMol[0] ?? NaN));
  });

  it('lets nothing back through its check valve when it stops, and air where there is none', () => {
    const stopped = { ...PUMPING, pumpOn: false };
    const kept = advance(createRig(smallRig({ airPa: 30 })), 600, stopped);
    expect(totalPressurePa(kept, 0)).toBeCloseTo(30, 9);
    const leaky = smallRig({ airPa: 30 }, { stoppedInflowPaM3PerS: 0.01 });
    const filled = advance(createRig(leaky), 600, stopped);
    expect(totalPressurePa(filled, 0)).toBeCloseTo(30 + (0.01 * 600) / 5e-3, 6);
  });

  it('takes longer through a valve core than without it', () => {
    const pressureAfter = (coreDiameterM: number | null): number =>
      totalPressurePa(
        advance(createRig(systemAndHose(1000, 1000, { coreDiameterM })), 60, PUMPING),
        0,
      );
    expect(pressureAfter(2e-3)).toBeGreaterThan(2 * pressureAfter(null));
  });
});

describe('ducts', () => {
  it('put tube and core in series', () => {
    const conductance = (duct: Partial<DuctSetup>) =>
      ductConductanceM3PerS({ ...HOSE, ...duct }, OPEN, 50, AIR);
    const tube = conductance({});
    const both = conductance({ coreDiameterM: 2e-3 });
    const narrow = conductance({ lengthM: 1e-9, coreDiameterM: 2e-3 });
    expect(1 / both).toBeCloseTo(1 / tube + 1 / narrow, 3);
  });

  it('let water vapour through more easily than air', () => {
    // Molecular flow: √(28.96/18.02) = 1.268; viscous flow: 18.2/9.7 = 1.876.
    const overAir = (meanPa: number) =>
      ductConductanceM3PerS(HOSE, OPEN, meanPa, VAPOUR) /
      ductConductanceM3PerS(HOSE, OPEN, meanPa, AIR);
    expect(overAir(0)).toBeCloseTo(1.268, 3);
    expect(overAir(1e5)).toBeCloseTo(1.876, 3);
  });
});

describe('leaks', () => {
  it('let in the same below half an atmosphere, less above, and nothing at the end', () => {
    expect(openingShare(0, 101_325)).toBe(1);
    expect(openingShare(50_000, 101_325)).toBe(1);
    // Half way between half an atmosphere and a whole one: √(1 − 0.5²).
    expect(openingShare(0.75 * 101_325, 101_325)).toBeCloseTo(Math.sqrt(0.75), 9);
    expect(openingShare(101_325, 101_325)).toBe(0);
    expect(openingShare(300_000, 101_325)).toBe(0);
  });
});

describe('reservoirs', () => {
  it('rise to their balance along an exponential, and level off there', () => {
    const capacityMolPerPa = 2e-6;
    const exchangeS = 120;
    const setup = smallRig({
      airPa: 10,
      reservoirs: [{ gas: 'water', capacityMolPerPa, exchangeS, startPa: 100 }],
    });
    const gasMolPerPa = 5e-3 / (GAS_CONSTANT * 293.15);
    const endPa = (100 * capacityMolPerPa) / (capacityMolPerPa + gasMolPerPa);
    const timeS = exchangeS / (1 + capacityMolPerPa / gasMolPerPa);
    for (const atS of [30, 120, 600]) {
      const waterPa = totalPressurePa(advance(createRig(setup), atS, STANDING), 0) - 10;
      expect(waterPa / (endPa * (1 - Math.exp(-atS / timeS))), `${atS} s`).toBeCloseTo(1, 3);
    }
    expect(totalPressurePa(advance(createRig(setup), 7200, STANDING), 0)).toBeCloseTo(
      10 + endPa,
      6,
    );
  });

  it('give a slow tail like 1/t where their times are spread', () => {
    const setup = smallRig({
      airPa: 0,
      reservoirs: [10, 40, 160, 640, 2560, 10_240].map((exchangeS) => ({
        gas: 'water',
        capacityMolPerPa: 1e-8,
        exchangeS,
        startPa: 1000,
      })),
    });
    const pressureAt = (timeS: number): number =>
      totalPressurePa(advance(createRig(setup), timeS, PUMPING), 0);
    const slope = Math.log(pressureAt(2000) / pressureAt(200)) / Math.log(10);
    expect(slope).toBeGreaterThan(-1.2);
    expect(slope).toBeLessThan(-0.8);
  });
});

describe('the setup', () => {
  it('is refused where a puddle is thinner than a film', () => {
    const puddle = { areaM2: 0.1, evaporationShare: 0.02, metalConductanceWPerK: 1 };
    const withWater = (waterKg: number) => smallRig({ puddle: { ...puddle, waterKg } });
    expect(rigSetupSchema.safeParse(withWater(1.1e-3)).success).toBe(true);
    expect(rigSetupSchema.safeParse(withWater(0.9e-3)).success).toBe(false);
  });

  it('is refused where a duct leads nowhere', () => {
    const setup = systemAndHose(1, 1, { between: [0, 2] });
    expect(rigSetupSchema.safeParse(setup).success).toBe(false);
    expect(rigSetupSchema.safeParse(systemAndHose(1, 1)).success).toBe(true);
  });
});
