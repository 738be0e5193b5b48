/** What five kelvin more do to a closed system: much to water in balance, little to a dry gas. */
import { describe, expect, it } from 'vitest';
import { advance } from '../../simulators/physics/advance.ts';
import { createRig, totalPressurePa } from '../../simulators/physics/rig-state.ts';
import { smallRig, STANDING, type SmallSection } from '../support/small-rig.ts';

/** Pressure over that at the start, after warming evenly from 20 to 25 °C in 1000 s. */
function ratioAfterFiveKelvin(section: SmallSection): number {
  const rig = smallRig(section);
  const warming = { ...rig.surroundings, driftKPerS: 5e-3 };
  const start = createRig({ ...rig, surroundings: warming });
  return totalPressurePa(advance(start, 1000, STANDING), 0) / totalPressurePa(start, 0);
}

/** IAPWS R7-97: 3169.747 Pa at 25 °C, 2339.215 Pa at 20 °C: 6.3 % for each kelvin (6.4 % for the first). */
const WATER_RATIO = 3169.747 / 2339.215;

describe('warming', () => {
  it('raises a dry gas in proportion to the absolute temperature: 0.34 % for each kelvin', () => {
    expect(ratioAfterFiveKelvin({ airPa: 60 })).toBeCloseTo(298.15 / 293.15, 9);
  });

  it('raises the vapour above free water as its vapour pressure', () => {
    const puddle = { waterKg: 5e-3, areaM2: 0.1, evaporationShare: 1, metalConductanceWPerK: 1e4 };
    const ratio = ratioAfterFiveKelvin({ airPa: 0, waterPa: 2339.215, puddle });
    expect(ratio / WATER_RATIO).toBeCloseTo(1, 3);
  });

  it('raises the vapour above wet walls as much, where they hold far more than the gas', () => {
    const wall = { gas: 'water' as const, capacityMolPerPa: 1e-2, exchangeS: 1, startPa: 80 };
    const ratio = ratioAfterFiveKelvin({ airPa: 0, waterPa: 80, reservoirs: [wall] });
    expect(ratio / WATER_RATIO).toBeCloseTo(1, 2);
  });
});
