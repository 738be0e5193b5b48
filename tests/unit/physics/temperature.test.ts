/** How drift and swing of the temperature move what a closed system holds. */
import { describe, expect, it } from 'vitest';
import { waterVapourPressurePa } from '../../../protocol/water.ts';
import { advance } from '../../../simulators/physics/advance.ts';
import { puddleTemperatureK } from '../../../simulators/physics/puddle.ts';
import {
  createRig,
  partialPressuresPa,
  totalPressurePa,
  type RigState,
} from '../../../simulators/physics/rig-state.ts';
import { smallRig, STANDING, type SmallSection } from '../../support/small-rig.ts';

const SWINGING = { driftKPerS: -1e-3, swingK: 4, swingPeriodS: 1200 };

/** −1 mK/s, and 4 K to and fro in 20 min. */
const warmerK = (timeS: number) => -1e-3 * timeS + 4 * Math.sin((2 * Math.PI * timeS) / 1200);

function swung(section: SmallSection, timeS: number): RigState {
  const rig = smallRig(section);
  const start = createRig({ ...rig, surroundings: { ...rig.surroundings, ...SWINGING } });
  return advance(start, timeS, STANDING);
}

describe('a changing temperature', () => {
  it.each([300, 600, 900, 3600])('carries a gas with it: after %d s', (timeS) => {
    const expected = (40 * (293.15 + warmerK(timeS))) / 293.15;
    expect(totalPressurePa(swung({ airPa: 40 }, timeS), 0)).toBeCloseTo(expected, 9);
  });

  it.each([300, 900, 3600])('carries a puddle and its vapour with it: after %d s', (timeS) => {
    const puddle = { waterKg: 5e-3, areaM2: 0.1, evaporationShare: 1, metalConductanceWPerK: 1e4 };
    const state = swung({ airPa: 0, waterPa: 2339, puddle }, timeS);
    const lying = state.sections[0]?.puddle ?? { mol: 0, enthalpyJ: 0 };
    expect(puddleTemperatureK(lying) - 293.15).toBeCloseTo(warmerK(timeS), 2);
    const expected = waterVapourPressurePa(20 + warmerK(timeS));
    expect(totalPressurePa(state, 0) / expected).toBeCloseTo(1, 3);
  });

  it('drives refrigerant out of warm oil by its heat of solution, and back into cool', () => {
    const oil = { gas: 'refrigerant' as const, capacityMolPerPa: 1, exchangeS: 1, startPa: 500 };
    const state = swung({ airPa: 0, refrigerantPa: 500, reservoirs: [oil] }, 300);
    const [coldK, warmK] = [293.15, 293.15 + warmerK(300)];
    const expected = 500 * Math.exp((20_000 / 8.314462618) * (1 / coldK - 1 / warmK));
    expect(partialPressuresPa(state, 0).refrigerant / expected).toBeCloseTo(1, 3);
  });
});

describe('refrigerant in oil', () => {
  it('comes out to its balance along an exponential, and knows nothing of the water', () => {
    const oil = {
      gas: 'refrigerant' as const,
      capacityMolPerPa: 2e-6,
      exchangeS: 300,
      startPa: 800,
    };
    const gasMolPerPa = 5e-3 / (8.314462618 * 293.15);
    const endPa = (800 * 2e-6) / (2e-6 + gasMolPerPa);
    const timeS = 300 / (1 + 2e-6 / gasMolPerPa);
    const setup = smallRig({ airPa: 10, waterPa: 50, reservoirs: [oil] });
    for (const atS of [60, 200, 1200]) {
      const partial = partialPressuresPa(advance(createRig(setup), atS, STANDING), 0);
      const expected = endPa * (1 - Math.exp(-atS / timeS));
      expect(partial.refrigerant / expected, `${atS} s`).toBeCloseTo(1, 3);
      expect(partial.water).toBeCloseTo(50, 9);
    }
  });
});
