/** A simulated pump alone with a sensor on a closed hose, and what is the matter with it. */
import { advance } from '../../simulators/physics/advance.ts';
import { controlsAsFound } from '../../simulators/physics/controls.ts';
import type { PumpSetup } from '../../simulators/physics/pump-setup.ts';
import { createRig, partialPressuresPa } from '../../simulators/physics/rig-state.ts';
import type { RigSetup } from '../../simulators/physics/rig-setup.ts';
import { SeededRandom } from '../../simulators/physics/seeded-random.ts';
import { Sensor } from '../../simulators/physics/sensor.ts';
import { FAIR_WEATHER } from '../../simulators/physics/surroundings.ts';
import {
  HOSE_1_2_M,
  HOSE_1_4_M,
  HOSE_3_8_M,
  hoseDuct,
  hoseSection,
  ISOLATION,
  leak,
  section,
  vanePump,
} from '../../simulators/scenarios/building-blocks.ts';
import { Chance } from '../../simulators/scenarios/generated/chance.ts';
import { drawSensor } from '../../simulators/scenarios/generated/sensor.ts';

export const PUMP_STATES = ['good', 'wet', 'worn', 'leaking_hose', 'ballast_open'] as const;
export type PumpState = (typeof PUMP_STATES)[number];

export interface BlankedOff {
  readonly readings: readonly { readonly elapsedS: number; readonly pressurePa: number }[];
  readonly pumpOnS: number;
  /** On its plate. */
  readonly ultimatePa: number;
}

const PUMP_ON_S = 20;
/** The sensor's end of the hose, and the pump's. */
const END = 0;
const PUMP = 1;

/** A reading a second. */
export function blankedOff(state: PumpState, seed: number, lengthS: number): BlankedOff {
  const chance = new Chance(seed);
  const ultimatePa = chance.spread(1, 6);
  const rig = rigOf(state, chance, ultimatePa);
  let now = createRig(rig);
  const sensor = new Sensor(
    drawSensor(chance, 'mixed'),
    partialPressuresPa(now, END),
    new SeededRandom(seed),
  );
  const readings: { elapsedS: number; pressurePa: number }[] = [];
  while (now.elapsedS < PUMP_ON_S + lengthS) {
    const pumpOn = now.elapsedS >= PUMP_ON_S;
    const ballastOpen = state === 'ballast_open';
    now = advance(now, 1, { ...controlsAsFound(rig), pumpOn, ballastOpen });
    sensor.follow(1, partialPressuresPa(now, END));
    const pressurePa = sensor.read();
    if (pressurePa !== null) readings.push({ elapsedS: now.elapsedS, pressurePa });
  }
  return { readings, pumpOnS: PUMP_ON_S, ultimatePa };
}

function rigOf(state: PumpState, chance: Chance, ultimatePa: number): RigSetup {
  const temperatureK = 273.15 + chance.between(5, 35);
  const hose = {
    diameterM: chance.oneOf([HOSE_1_4_M, HOSE_3_8_M, HOSE_1_2_M]),
    lengthM: chance.between(0.6, 2),
  };
  const pump = pumpOf(state, chance, ultimatePa);
  const letsInPa = state === 'leaking_hose' ? chance.spread(40, 2000) : 0;
  const joint = leak('joint of the hose', letsInPa * pump.displacementM3PerS);
  const metal = { metalTemperatureK: temperatureK };
  return {
    surroundings: { ...FAIR_WEATHER, temperatureK },
    sections: [
      section({ name: 'cap', volumeM3: chance.spread(1e-5, 1e-4), ...metal }),
      hoseSection(hose.lengthM, { ...hose, ...metal, inflows: letsInPa > 0 ? [joint] : [] }),
    ],
    ducts: [hoseDuct(hose.lengthM, { ...hose, between: [END, PUMP] })],
    valves: [{ name: ISOLATION, opening: 1 }],
    pump,
    nitrogen: null,
  };
}

/** What is in order has what a pump in use has; all else is beyond what anybody would pull with. */
function pumpOf(state: PumpState, chance: Chance, ultimatePa: number): PumpSetup {
  const cfm = chance.oneOf([2, 3, 4, 5, 6, 8, 10]);
  const usual = vanePump(PUMP, cfm);
  const oil = {
    ...usual.oil,
    waterMolPerPa: (usual.oil.waterMolPerPa * cfm) / 4,
    waterStartPa: state === 'wet' ? chance.spread(40, 500) : chance.spread(0.1, 3),
  };
  return {
    ...usual,
    ultimatePa: state === 'worn' ? ultimatePa * chance.spread(10, 100) : ultimatePa,
    coldFactor: chance.between(1.2, 3),
    oil,
  };
}
