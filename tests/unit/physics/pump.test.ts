import { describe, expect, it } from 'vitest';
import { advance } from '../../../simulators/physics/advance.ts';
import { controlsAsFound, type Controls } from '../../../simulators/physics/controls.ts';
import type { PumpSetup } from '../../../simulators/physics/pump-setup.ts';
import {
  createRig,
  partialPressuresPa,
  totalPressurePa,
  type RigState,
} from '../../../simulators/physics/rig-state.ts';
import { withFreshBattery, withFreshOil } from '../../../simulators/physics/service.ts';
import {
  IDEAL_PUMP,
  leakOf,
  PUMPING,
  smallRig,
  type SmallSection,
} from '../../support/small-rig.ts';

const BALLAST: Controls = { ...PUMPING, ballastOpen: true };
/** A quarter litre of oil, and nothing that dries it but the ballast. */
const OIL = { ...IDEAL_PUMP.oil, waterMolPerPa: 1.9e-3, clearingS: 400, dryingS: 1e9 };
const VANE: Partial<PumpSetup> = { ballastShare: 0.1, ballastPa: 200, oil: OIL, runsWarmerK: 40 };

function started(section: SmallSection, pump: Partial<PumpSetup>): RigState {
  return createRig(smallRig(section, pump));
}

describe('a pump while it warms', () => {
  it('comes down to its ultimate pressure along an exponential', () => {
    const start = started({ airPa: 10 }, { ultimatePa: 4, coldFactor: 3, runsWarmerK: 40 });
    for (const timeS of [300, 600, 1800]) {
      const expected = 4 * (1 + 2 * Math.exp(-timeS / 600));
      // The gas follows within 5 L / 2 L/s = 2.5 s.
      expect(totalPressurePa(advance(start, timeS, PUMPING), 0) / expected).toBeCloseTo(1, 2);
    }
  });

  it('cools again when it stands', () => {
    const warm = advance(started({}, { runsWarmerK: 40 }), 6000, PUMPING);
    expect(warm.pump.warmK).toBeCloseTo(40 * (1 - Math.exp(-10)), 6);
    const cooled = advance(warm, 600, { ...PUMPING, pumpOn: false });
    expect(cooled.pump.warmK / warm.pump.warmK).toBeCloseTo(Math.exp(-1), 9);
  });
});

describe('a battery', () => {
  it('ends at its second: from then on nothing is drawn', () => {
    const start = started({ airPa: 1000 }, { batteryS: 3.7 });
    const spent = advance(start, 60, PUMPING);
    // An ideal pump until then: p₀ exp(−S t/V).
    expect(totalPressurePa(spent, 0) / (1000 * Math.exp((-2e-3 * 3.7) / 5e-3))).toBeCloseTo(1, 3);
    expect(spent.pump.ranS).toBeCloseTo(3.7, 4);
    expect(totalPressurePa(advance(spent, 60, PUMPING), 0)).toBe(totalPressurePa(spent, 0));
  });

  it('ends at the same second however the time is cut', () => {
    let state = started({ airPa: 1000 }, { batteryS: 3.7 });
    for (let second = 0; second < 60; second += 1) state = advance(state, 1, PUMPING);
    const inOneGo = advance(started({ airPa: 1000 }, { batteryS: 3.7 }), 60, PUMPING);
    expect(totalPressurePa(state, 0) / totalPressurePa(inOneGo, 0)).toBeCloseTo(1, 3);
  });

  it('lets air back through a pump without check valve, and goes on when changed', () => {
    const leaky = { batteryS: 60, stoppedInflowPaM3PerS: 0.01 };
    const spent = advance(started({ airPa: 1 }, leaky), 60 + 100, PUMPING);
    expect(totalPressurePa(spent, 0)).toBeCloseTo((0.01 * 100) / 5e-3, 2);
    const changed = advance(withFreshBattery(spent), 30, PUMPING);
    expect(totalPressurePa(changed, 0)).toBeLessThan(0.01);
  });
});

describe('the oil', () => {
  it('adds its dirt to the ultimate pressure until it is changed', () => {
    const foul = { ultimatePa: 3, oil: { ...IDEAL_PUMP.oil, foulPa: 120 } };
    const state = advance(started({ airPa: 1000 }, foul), 600, PUMPING);
    expect(totalPressurePa(state, 0)).toBeCloseTo(123, 6);
    expect(totalPressurePa(advance(withFreshOil(state), 600, PUMPING), 0)).toBeCloseTo(3, 6);
  });

  it('takes in vapour without ballast, which then holds up the pressure', () => {
    // 1 mol of vapour drawn with no dry gas: nothing carries it out, so all of it stays in the oil.
    const molPerPa = 1e-2;
    const wall = { gas: 'water' as const, capacityMolPerPa: molPerPa, exchangeS: 10, startPa: 100 };
    const start = started({ airPa: 0, reservoirs: [wall] }, VANE);
    const wet = advance(start, 40_000, PUMPING);
    expect(wet.pump.oilWaterMol / wet.pumpedMol.water).toBeCloseTo(1, 3);
    // Wall and oil end in balance with each other: 1 mol over 1e-2 + 1.9e-3 mol/Pa (and 2e-6 of gas).
    expect(partialPressuresPa(wet, 0).water / (1 / (1e-2 + 1.9e-3))).toBeCloseTo(1, 2);
  });

  it('gives it out again with the ballast, by an exponential of its own time', () => {
    const wet = { ...VANE, oil: { ...OIL, waterStartPa: 100 } };
    const warm = { ...wet, warmingS: 1 };
    const dried = advance(started({ airPa: 1 }, warm), 800, BALLAST);
    expect(dried.pump.oilWaterMol / (0.19 * Math.exp(-800 / 400))).toBeCloseTo(1, 2);
    expect(partialPressuresPa(dried, 0).water / (100 * Math.exp(-2))).toBeCloseTo(1, 1);
  });

  it('keeps vapour out of it with the ballast open, up to the tolerance', () => {
    // Tolerance at 60 °C: 0.1 · 101 325 · 19 947/(101 325 − 19 947) = 2480 Pa (dry air outside).
    const drawnPa = (waterPa: number) => {
      const warm = { ...VANE, warmingS: 1e-3, ballastPa: 0 };
      const wall = {
        gas: 'water' as const,
        capacityMolPerPa: 1,
        exchangeS: 1e-3,
        startPa: waterPa,
      };
      const state = advance(started({ airPa: 0, waterPa, reservoirs: [wall] }, warm), 20, BALLAST);
      return state.pump.oilWaterMol / state.pumpedMol.water;
    };
    expect(drawnPa(2000)).toBeLessThan(0.01);
    expect(drawnPa(5000)).toBeGreaterThan(0.4);
  });

  it('dries by itself, slowly, while the pump runs', () => {
    const wet = { oil: { ...OIL, waterStartPa: 100, clearingS: 1e12, dryingS: 1000 } };
    const dried = advance(started({ airPa: 0 }, wet), 2000, PUMPING);
    expect(dried.pump.oilWaterMol / (0.19 * Math.exp(-2))).toBeCloseTo(1, 2);
  });
});

describe('controls as found', () => {
  it('have the pump off and each valve as the setup says', () => {
    const rig = { ...smallRig(), valves: [{ name: 'isolation', opening: 0.3 }] };
    const found = controlsAsFound(rig);
    expect(found).toEqual({ ...PUMPING, pumpOn: false, openings: { isolation: 0.3 } });
    const state = advance(started({ airPa: 70, inflows: [leakOf(0)] }, {}), 60, found);
    expect(totalPressurePa(state, 0)).toBeCloseTo(70, 9);
  });
});
