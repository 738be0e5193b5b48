/** The smallest rig there is, for checks against formulas; a test says what differs. */
import type { Controls } from '../../simulators/physics/controls.ts';
import type { PumpSetup } from '../../simulators/physics/pump-setup.ts';
import type { DuctSetup, RigSetup } from '../../simulators/physics/rig-setup.ts';
import type { InflowSetup, SectionSetup } from '../../simulators/physics/section-setup.ts';
import { FAIR_WEATHER } from '../../simulators/physics/surroundings.ts';

export const STANDING: Controls = {
  pumpOn: false,
  ballastOpen: false,
  openings: { isolation: 0 },
  coresOut: false,
  tightened: false,
  nitrogenPa: null,
};
export const PUMPING: Controls = { ...STANDING, pumpOn: true, openings: { isolation: 1 } };

/** Without foul oil, cold start, ballast or battery: an ideal one. */
export const IDEAL_PUMP: PumpSetup = {
  section: 0,
  displacementM3PerS: 2e-3,
  ultimatePa: 0,
  ballastPa: 0,
  ballastShare: 0,
  stoppedInflowPaM3PerS: 0,
  // So much oil that no water in it is ever noticed.
  oil: { foulPa: 0, waterMolPerPa: 1e6, waterStartPa: 0, clearingS: 600, dryingS: 3000 },
  runsWarmerK: 0,
  warmingS: 600,
  coldFactor: 1,
  batteryS: null,
};

export const HOSE: DuctSetup = {
  between: [0, 1],
  diameterM: 9.5e-3,
  lengthM: 1.2,
  count: 1,
  coreDiameterM: null,
  valve: 'isolation',
  oneWay: false,
};

export interface SmallSection extends Partial<Omit<SectionSetup, 'startPa'>> {
  readonly airPa?: number;
  readonly waterPa?: number;
  readonly refrigerantPa?: number;
}

export function smallSection({
  airPa = 100_000,
  waterPa = 0,
  refrigerantPa = 0,
  ...section
}: SmallSection = {}): SectionSetup {
  return {
    name: 'system',
    volumeM3: 5e-3,
    startPa: { air: airPa, water: waterPa, refrigerant: refrigerantPa },
    metalTemperatureK: 293.15,
    inflows: [],
    reservoirs: [],
    puddle: null,
    ...section,
  };
}

/** One tight, clean, dry section of 5 L full of air, with an ideal pump right on it. */
export function smallRig(
  section: SmallSection = {},
  pump: Partial<PumpSetup> = {},
  temperatureK = 293.15,
): RigSetup {
  return {
    // Dry air outside, so that a leak brings in one gas only.
    surroundings: { ...FAIR_WEATHER, temperatureK, humidityPa: 0 },
    sections: [smallSection({ metalTemperatureK: temperatureK, ...section })],
    ducts: [],
    valves: [{ name: 'isolation', opening: 1 }],
    pump: { ...IDEAL_PUMP, ...pump },
    nitrogen: null,
  };
}

/** A leak from outside into a vacuum. */
export function leakOf(intoVacuumPaM3PerS: number): InflowSetup {
  return {
    name: 'leak',
    intoVacuumPaM3PerS,
    from: 'outside',
    law: 'opening',
    chargePa: 0,
    endsWhenTightened: true,
  };
}
