/** The technician's own gear, the same in every scenario that doesn't say otherwise. */
import type { DuctSetup, PumpSetup, SectionSetup } from '../physics/rig-setup.ts';

/** Inner diameter of a 3/8-inch hose: 3/8 · 25.4 mm = 9.5 mm. */
const HOSE_DIAMETER_M = 0.0095;

/** A hose of this length as a volume at the pump's end. */
export function hoseSection(lengthM: number): SectionSetup {
  return {
    name: 'hose',
    volumeM3: (Math.PI / 4) * HOSE_DIAMETER_M ** 2 * lengthM,
    airPa: 101_000,
    waterPa: 300,
    metalTemperatureK: 295.15,
    leakPaM3PerS: 0,
    reservoirs: [],
    puddle: null,
  };
}

/** The same hose as a resistance, core taken out, with the valve of the core tool at the system. */
export function hoseDuct(lengthM: number, between: [number, number]): DuctSetup {
  return {
    between,
    diameterM: HOSE_DIAMETER_M,
    lengthM,
    coreDiameterM: null,
    isolationValve: true,
  };
}

/**
 * A two-stage pump of 4 cubic feet a minute: 4 · 28.317 L / 60 s = 1.888 L/s. An ultimate pressure
 * of 3 Pa (about 25 micron) with clean oil and 200 Pa (1500 micron) with the ballast open: common
 * practice, no source.
 */
export function fourCfmPump(section: number): PumpSetup {
  return {
    section,
    displacementM3PerS: (4 * 28.317e-3) / 60,
    ultimatePa: 3,
    ballastPa: 200,
    stoppedInflowPaM3PerS: 0,
  };
}
