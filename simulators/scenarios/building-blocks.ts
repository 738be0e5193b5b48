/** Parts that scenarios are put together from; each says what differs from the usual. */
import type { PumpSetup } from '../physics/pump-setup.ts';
import type { DuctSetup } from '../physics/rig-setup.ts';
import type { InflowSetup, ReservoirSetup, SectionSetup } from '../physics/section-setup.ts';

/** The valve of the core tool at the system: what 'valve off' shuts. */
export const ISOLATION = 'isolation';
/** The valve between the system and the stub of the tool that the sensor sits on, where there is one. */
export const STUB = 'stub';

/** Inner diameters of hoses by their trade size: n/8 inch of 25.4 mm. */
export const HOSE_1_4_M = 0.25 * 25.4e-3;
export const HOSE_3_8_M = 0.375 * 25.4e-3;
export const HOSE_1_2_M = 0.5 * 25.4e-3;

/**
 * The round opening that lets through as little as a pressed-in valve core does: a ring of some
 * tenths of a millimetre around its pin. Common practice, no source: with it a pull-down on a good
 * hose takes about twice as long.
 */
export const CORE_M = 1.2e-3;

type SectionDraft = Pick<SectionSetup, 'name' | 'volumeM3'> & Partial<SectionSetup>;

/** Full of room air at 20 °C, tight, and dry apart from that air's own moisture. */
export function section(draft: SectionDraft): SectionSetup {
  return {
    startPa: { air: 100_300, water: 1000, refrigerant: 0 },
    metalTemperatureK: 293.15,
    inflows: [],
    reservoirs: [],
    puddle: null,
    ...draft,
  };
}

/** Hoses side by side as one volume at the pump's end. */
export function hoseSection(
  lengthM: number,
  { diameterM = HOSE_3_8_M, count = 1, ...draft }: Partial<SectionSetup> & HoseDraft = {},
): SectionSetup {
  return section({
    name: 'hose',
    volumeM3: count * (Math.PI / 4) * diameterM ** 2 * lengthM,
    ...draft,
  });
}

interface HoseDraft {
  readonly diameterM?: number;
  readonly count?: number;
}

/** The same hoses as a resistance, with the core tool's valve at the system's end, cores out. */
export function hoseDuct(lengthM: number, draft: Partial<DuctSetup> = {}): DuctSetup {
  return {
    between: [0, 1],
    diameterM: HOSE_3_8_M,
    lengthM,
    count: 1,
    coreDiameterM: null,
    valve: ISOLATION,
    oneWay: false,
    ...draft,
  };
}

/** Copper line between parts of a system, always open unless a valve is named. */
export function line(
  between: [number, number],
  diameterM: number,
  lengthM: number,
  valve: string | null = null,
): DuctSetup {
  return { between, diameterM, lengthM, count: 1, coreDiameterM: null, valve, oneWay: false };
}

/** One cubic foot a minute is 28.317 L / 60 s. */
const M3_PER_S_PER_CFM = 28.317e-3 / 60;

/**
 * A two-stage rotary vane pump. An ultimate pressure of 3 Pa (about 25 micron) with clean oil, 200 Pa
 * (1500 micron) with the ballast open, twice as high while cold: common practice, no source. Five grams
 * of water in its quarter litre of oil add some 150 Pa: invented. Ballast air is about a tenth of the
 * nominal speed (a pump maker's handbook, from memory).
 */
export function vanePump(section: number, cfm: number, draft: Partial<PumpSetup> = {}): PumpSetup {
  return {
    section,
    displacementM3PerS: cfm * M3_PER_S_PER_CFM,
    ultimatePa: 3,
    ballastPa: 200,
    ballastShare: 0.1,
    stoppedInflowPaM3PerS: 0,
    oil: { foulPa: 0, waterMolPerPa: 1.9e-3, waterStartPa: 0, clearingS: 400, dryingS: 3000 },
    runsWarmerK: 40,
    warmingS: 700,
    coldFactor: 2,
    batteryS: null,
    ...draft,
  };
}

/** Air from outside through a joint or a hole. */
export function leak(
  name: string,
  intoVacuumPaM3PerS: number,
  draft: Partial<InflowSetup> = {},
): InflowSetup {
  return {
    name,
    intoVacuumPaM3PerS,
    from: 'outside',
    law: 'opening',
    chargePa: 0,
    endsWhenTightened: true,
    ...draft,
  };
}

/** Water that walls and oil hold, in balance with `startPa` of vapour. */
export function heldWater(
  capacityMolPerPa: number,
  exchangeS: number,
  startPa: number,
): ReservoirSetup {
  return { gas: 'water', capacityMolPerPa, exchangeS, startPa };
}
