/** What lets gas through between the volumes of a rig: each kind of duct against its formula. */
import { describe, expect, it } from 'vitest';
import { advance } from '../../../simulators/physics/advance.ts';
import { ductConductanceM3PerS } from '../../../simulators/physics/duct-conductance.ts';
import { flowFactorsOf } from '../../../simulators/physics/gases.ts';
import { orificeConductanceM3PerS } from '../../../simulators/physics/orifice-conductance.ts';
import type { DuctSetup, RigSetup } from '../../../simulators/physics/rig-setup.ts';
import { createRig, totalPressurePa } from '../../../simulators/physics/rig-state.ts';
import {
  HOSE,
  leakOf,
  PUMPING,
  smallRig,
  smallSection,
  STANDING,
} from '../../support/small-rig.ts';

const OPEN = { coreOut: false, opening: 1 };
const AIR = flowFactorsOf({ air: 1, water: 0, refrigerant: 0 });

/** Two volumes of 1 L. */
function pair(duct: Partial<DuctSetup>, firstPa: number, secondPa: number): RigSetup {
  return {
    ...smallRig(),
    sections: [firstPa, secondPa].map((airPa) => smallSection({ volumeM3: 1e-3, airPa })),
    ducts: [{ ...HOSE, ...duct }],
    nitrogen: { section: 1, conductanceM3PerS: 1e-3 },
  };
}

describe('a valve partly open', () => {
  it('is an orifice of that share of the bore, in series with the tube', () => {
    const tube = ductConductanceM3PerS(HOSE, OPEN, 20, AIR);
    for (const opening of [0.01, 0.25, 0.9]) {
      const orifice = orificeConductanceM3PerS(9.5e-3 * Math.sqrt(opening), 20);
      const both = ductConductanceM3PerS(HOSE, { coreOut: false, opening }, 20, AIR);
      expect(1 / both / (1 / tube + 1 / orifice), `${opening}`).toBeCloseTo(1, 12);
    }
  });

  it('lets through ever less as it is shut, and at last nothing', () => {
    const rig = createRig(pair({}, 200, 100));
    const risenPa = [1, 1e-3, 1e-5, 0].map((isolation) => {
      const controls = { ...STANDING, openings: { isolation } };
      return totalPressurePa(advance(rig, 5, controls), 1) - 100;
    });
    expect(risenPa[0]).toBeCloseTo(50, 3);
    expect(risenPa[1]).toBeLessThan(45);
    expect(risenPa[2]).toBeLessThan((risenPa[1] ?? 0) / 10);
    expect(risenPa[2]).toBeGreaterThan(0);
    expect(risenPa[3]).toBeCloseTo(0, 12);
  });
});

describe('hoses and cores', () => {
  it('adds up hoses side by side, each with its own core', () => {
    const duct = { ...HOSE, coreDiameterM: 1.2e-3 };
    const single = ductConductanceM3PerS(duct, OPEN, 50, AIR);
    expect(ductConductanceM3PerS({ ...duct, count: 2 }, OPEN, 50, AIR)).toBeCloseTo(2 * single, 12);
  });

  it('is as wide as the bare hose once the cores are out', () => {
    const cored = pair({ coreDiameterM: 1.2e-3 }, 200, 100);
    const after = (setup: RigSetup, coresOut: boolean) =>
      totalPressurePa(advance(createRig(setup), 0.2, { ...PUMPING, pumpOn: false, coresOut }), 1);
    expect(after(cored, true)).toBe(after(pair({}, 200, 100), true));
    expect(after(cored, false)).toBeLessThan(after(cored, true) - 1);
  });
});

describe('a check valve', () => {
  const OPENED = { ...PUMPING, pumpOn: false };

  it('lets gas through one way and not the other', () => {
    const forward = advance(createRig(pair({ oneWay: true }, 200, 100)), 60, OPENED);
    expect(totalPressurePa(forward, 0)).toBeCloseTo(150, 3);
    const backward = advance(createRig(pair({ oneWay: true }, 100, 200)), 60, OPENED);
    expect(totalPressurePa(backward, 0)).toBe(totalPressurePa(createRig(backward.setup), 0));
    expect(totalPressurePa(backward, 1)).toBeCloseTo(200, 9);
  });

  it('holds at once where the pressure turns round within a step', () => {
    // Equal at first, so that the valve is open; then nitrogen comes in on the far side.
    const rig = { ...createRig(pair({ oneWay: true }, 100, 100)), stepS: 30 };
    const filled = advance(rig, 60, { ...OPENED, nitrogenPa: 100_000 });
    expect(totalPressurePa(filled, 1)).toBeCloseTo(100_000, 0);
    expect(totalPressurePa(filled, 0)).toBeCloseTo(100, 9);
  });

  it('opens as soon as the pressure beyond it has fallen', () => {
    const setup = pair({ oneWay: true, diameterM: 0.03, lengthM: 0.2 }, 100, 5000);
    const rig = createRig({ ...setup, pump: { ...setup.pump, section: 1 } });
    // The far litre alone falls to 100 Pa, from there on both litres fall together.
    const aloneS = (1e-3 / 2e-3) * Math.log(5000 / 100);
    expect(totalPressurePa(advance(rig, 0.95 * aloneS, PUMPING), 0)).toBeCloseTo(100, 9);
    const together = totalPressurePa(advance(rig, aloneS + 2, PUMPING), 0);
    expect(together / (100 * Math.exp((-2e-3 * 2) / 2e-3))).toBeCloseTo(1, 1);
  });
});

describe('a sensor at the pump', () => {
  it('shows less than the system by Q/C while gas flows, and the same when it stands', () => {
    const flowPaM3PerS = 0.01;
    const leaky: RigSetup = {
      ...smallRig(),
      sections: [
        smallSection({ airPa: 10, inflows: [leakOf(flowPaM3PerS)] }),
        smallSection({ airPa: 10, volumeM3: 1e-4 }),
      ],
      ducts: [HOSE],
      pump: { ...smallRig().pump, section: 1 },
    };
    const pumping = advance(createRig(leaky), 600, PUMPING);
    const [systemPa, pumpPa] = [totalPressurePa(pumping, 0), totalPressurePa(pumping, 1)];
    const conductance = ductConductanceM3PerS(HOSE, OPEN, (systemPa + pumpPa) / 2, AIR);
    expect(pumpPa).toBeCloseTo(flowPaM3PerS / 2e-3, 6);
    expect((systemPa - pumpPa) / (flowPaM3PerS / conductance)).toBeCloseTo(1, 6);
    const tight = { ...PUMPING, pumpOn: false, tightened: true };
    const standing = advance(pumping, 60, tight);
    expect(totalPressurePa(standing, 0)).toBeCloseTo(totalPressurePa(standing, 1), 6);
  });
});

describe('a pocket', () => {
  it('behind a very thin way fills a system again like a leak that wanes: a virtual leak', () => {
    // Far above the molecular range C ∝ p̄, so that the flow is 1350 d⁴/l · (p₁² − p₂²)/2.
    const duct = { diameterM: 1e-4, lengthM: 0.5, valve: null };
    const rig = pair(duct, 50_000, 1);
    const atS = (timeS: number) => totalPressurePa(advance(createRig(rig), timeS, STANDING), 1) - 1;
    const firstPaPerS = ((1350 * 1e-4 ** 4) / 0.5) * (50_000 ** 2 / 2) * 1e3;
    expect(atS(60) / 60 / firstPaPerS).toBeCloseTo(1, 1);
    expect(atS(200_000) / 200_000).toBeLessThan(0.5 * firstPaPerS);
    // It ends where both are equal: half of what the pocket held.
    expect(atS(3e6)).toBeCloseTo(24_999.5, 0);
  });

  it('at atmosphere behind a valve that opens makes a step: Δp = p_atm · V_pocket / ΣV', () => {
    const setup = {
      ...smallRig({ airPa: 50 }),
      sections: [
        smallSection({ airPa: 50 }),
        smallSection({ airPa: 101_325, volumeM3: 2e-5, name: 'pocket' }),
      ],
      ducts: [HOSE],
    };
    const shut = advance(createRig(setup), 60, STANDING);
    expect(totalPressurePa(shut, 0)).toBeCloseTo(50, 9);
    const opened = advance(shut, 1, { ...PUMPING, pumpOn: false });
    const mixedPa = (50 * 5e-3 + 101_325 * 2e-5) / 5.02e-3;
    expect(totalPressurePa(opened, 0)).toBeCloseTo(mixedPa, 6);
  });
});
