/** The smallest rig there is, for checks against formulas; a test says what differs. */
import type { PumpSetup, RigSetup, SectionSetup } from '../../simulators/physics/rig-setup.ts';

export const PUMPING = { pumpOn: true, ballastOpen: false, isolated: false } as const;
export const STANDING = { pumpOn: false, ballastOpen: false, isolated: true } as const;

/** One tight, clean, dry section of 5 L full of air, with an ideal pump right on it. */
export function smallRig(
  section: Partial<SectionSetup> = {},
  pump: Partial<PumpSetup> = {},
  temperatureK = 293.15,
): RigSetup {
  return {
    gasTemperatureK: temperatureK,
    sections: [
      {
        name: 'system',
        volumeM3: 5e-3,
        airPa: 100_000,
        waterPa: 0,
        metalTemperatureK: temperatureK,
        leakPaM3PerS: 0,
        reservoirs: [],
        puddle: null,
        ...section,
      },
    ],
    ducts: [],
    pump: {
      section: 0,
      displacementM3PerS: 2e-3,
      ultimatePa: 0,
      ballastPa: 0,
      stoppedInflowPaM3PerS: 0,
      ...pump,
    },
  };
}
