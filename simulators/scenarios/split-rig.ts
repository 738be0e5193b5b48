/** A system of one volume on one length of hose: what most rehearsals are played on. */
import { FAIR_WEATHER, type Surroundings } from '../physics/surroundings.ts';
import type { PumpSetup } from '../physics/pump-setup.ts';
import type { DuctSetup, RigSetup } from '../physics/rig-setup.ts';
import type { ReservoirSetup, SectionSetup } from '../physics/section-setup.ts';
import {
  heldWater,
  HOSE_3_8_M,
  hoseDuct,
  hoseSection,
  ISOLATION,
  section,
  vanePump,
} from './building-blocks.ts';

/** Positions in the rig's list of sections. */
export const SYSTEM = 0;
export const PUMP_SIDE = 1;

interface SplitDraft {
  readonly system: Partial<SectionSetup> & Pick<SectionSetup, 'volumeM3'>;
  readonly hoseM: number;
  readonly hose?: Partial<Pick<DuctSetup, 'diameterM' | 'count' | 'coreDiameterM'>>;
  readonly atPump?: Partial<SectionSetup>;
  readonly cfm?: number;
  readonly pump?: Partial<PumpSetup>;
  readonly surroundings?: Partial<Surroundings>;
}

/** Cores out, one 3/8-inch hose, a 4 cfm pump, metal as warm as the air: unless the draft says otherwise. */
export function splitRig({
  system,
  hoseM,
  hose: { diameterM = HOSE_3_8_M, count = 1, coreDiameterM = null } = {},
  atPump,
  cfm = 4,
  pump,
  surroundings,
}: SplitDraft): RigSetup {
  const weather = { ...FAIR_WEATHER, ...surroundings };
  const metalTemperatureK = weather.temperatureK;
  return {
    surroundings: weather,
    sections: [
      section({ name: 'system', metalTemperatureK, ...system }),
      hoseSection(hoseM, { diameterM, count, metalTemperatureK, ...atPump }),
    ],
    ducts: [hoseDuct(hoseM, { diameterM, count, coreDiameterM })],
    valves: [{ name: ISOLATION, opening: 1 }],
    pump: vanePump(PUMP_SIDE, cfm, pump),
    nitrogen: { section: SYSTEM, conductanceM3PerS: 2e-4 },
  };
}

/**
 * What walls and oil of a system in order hold, near 4 L of it: a few tenths of a gram at the
 * humidity of a room, most of it loosely. Chosen so that the system comes down as technicians expect
 * it to and then holds: common practice, no source.
 */
export function ordinaryWater(startPa = 420, times = 1): ReservoirSetup[] {
  return [
    heldWater(4.5e-5 * times, 25, startPa),
    heldWater(6e-6 * times, 120, startPa),
    heldWater(2e-6 * times, 1000, 150),
    heldWater(2e-6 * times, 8000, 120),
  ];
}
