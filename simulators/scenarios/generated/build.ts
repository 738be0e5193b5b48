/** A generated job with what is the matter with it, as a rig with a sensor on it. */
import { GAS_CONSTANT } from '../../../protocol/gas-constants.ts';
import type { Gas } from '../../physics/gases.ts';
import type { PumpSetup } from '../../physics/pump-setup.ts';
import type { DuctSetup } from '../../physics/rig-setup.ts';
import type { InflowSetup, ReservoirSetup, SectionSetup } from '../../physics/section-setup.ts';
import {
  CORE_M,
  HOSE_1_2_M,
  HOSE_1_4_M,
  hoseDuct,
  hoseSection,
  ISOLATION,
  leak,
  line,
  section,
  STUB,
  vanePump,
} from '../building-blocks.ts';
import type { Placed } from '../scenario.ts';
import { everydayWater } from './everyday-water.ts';
import type { Faults, HeldGas } from './faults.ts';
import { saturationPa, type Job } from './job.ts';

/** Positions in the rig's list; the far part and the stub follow where there are any. */
const NEAR = 0;
const HOSE = 1;

/** The valve that shuts the far part off. */
const FAR_VALVE = 'far part';

/** Of a charged side at 20 to 40 °C, about, Pa. */
const CHARGE_PA = 1.2e6;

export function build(job: Job, faults: Faults): Placed {
  const split = job.split || faults.farShut;
  const onStub = job.stubM3 !== null || faults.stubLeakPaPerS > 0;
  const stubM3 = job.stubM3 ?? 5e-5;
  const farM3 = split ? job.volumeM3 * job.farShare : 0;
  const nearM3 = job.volumeM3 - farM3;
  const far = split ? 2 : NEAR;
  const stub = split ? 3 : 2;
  const seenM3 = nearM3 + (faults.farShut ? 0 : farM3) + (onStub ? stubM3 : 0);
  const sensorHome = job.sensorFar && !faults.farShut ? far : NEAR;

  const hose = faults.narrow ? { ...job.hose, boreM: HOSE_1_4_M, count: 1 } : job.hose;
  const leakHome = faults.leakFar ? far : NEAR;
  const inflowsOf = (index: number): InflowSetup[] => [
    ...inflow('joint of the system', index === leakHome, faults.systemLeakPaPerS * seenM3),
    ...inflow('joint of the sensor', onStub && index === stub, faults.stubLeakPaPerS * seenM3),
    ...inflow('valve to the charge', index === NEAR, faults.chargePaPerS * seenM3, {
      from: 'charge',
      chargePa: CHARGE_PA,
      endsWhenTightened: false,
    }),
  ];
  const part = (name: string, volumeM3: number, index: number): SectionSetup =>
    systemPart(name, volumeM3, { job, faults, inflows: inflowsOf(index), wet: index === far });

  const pump = pumpOf(job, faults);
  return {
    rig: {
      surroundings: job.surroundings,
      sections: [
        part('system', nearM3, NEAR),
        hoseSection(hose.lengthM, {
          ...airOf(job),
          diameterM: hose.boreM,
          count: hose.count,
          inflows: inflow('joint of the hose', true, faults.hoseLeakPa * pump.displacementM3PerS),
        }),
        ...(split ? [part('far part', farM3, far)] : []),
        ...(onStub
          ? [
              section({
                ...airOf(job),
                name: 'stub',
                volumeM3: stubM3,
                inflows: inflowsOf(stub),
              }),
            ]
          : []),
      ],
      ducts: [
        hoseDuct(hose.lengthM, {
          between: [NEAR, HOSE],
          diameterM: hose.boreM,
          count: hose.count,
          coreDiameterM: faults.narrow ? CORE_M : null,
        }),
        ...(split ? [farLine(job)] : []),
        // A tool's short wide passage.
        ...(onStub ? [line([sensorHome, stub], HOSE_1_2_M, 0.1, STUB)] : []),
      ],
      valves: [
        { name: ISOLATION, opening: 1 },
        ...(split ? [{ name: FAR_VALVE, opening: faults.farShut ? 0 : 1 }] : []),
        ...(onStub ? [{ name: STUB, opening: 1 }] : []),
      ],
      pump,
      nitrogen: { section: NEAR, conductanceM3PerS: 2e-4 },
    },
    sensorSection: faults.sensorAtPump ? HOSE : onStub ? stub : sensorHome,
  };
}

interface Inside {
  readonly job: Job;
  readonly faults: Faults;
  readonly inflows: InflowSetup[];
  /** Free water lies here. */
  readonly wet: boolean;
}

function systemPart(
  name: string,
  volumeM3: number,
  { job, faults, inflows, wet }: Inside,
): SectionSetup {
  const molPerPa = volumeM3 / (GAS_CONSTANT * job.surroundings.temperatureK);
  const held = (gas: Gas, gases: readonly HeldGas[]): ReservoirSetup[] =>
    gases.map(({ ratio, exchangeS, startPa }) => ({
      gas,
      capacityMolPerPa: ratio * molPerPa,
      exchangeS,
      startPa,
    }));
  const refrigerantPa = faults.heldRefrigerant[0]?.startPa ?? 0;
  const waterPa =
    faults.heldWater.length > 0 || faults.freeWater
      ? saturationPa(job.metalTemperatureK)
      : job.insideVapourPa;
  return section({
    name,
    volumeM3,
    metalTemperatureK: job.metalTemperatureK,
    startPa: {
      air: job.surroundings.atmospherePa - waterPa - refrigerantPa,
      water: waterPa,
      refrigerant: refrigerantPa,
    },
    inflows,
    reservoirs: [
      ...held('water', everydayWater(job, faults.wetness)),
      ...held('water', faults.heldWater),
      ...held('refrigerant', faults.heldRefrigerant),
    ],
    puddle: wet ? faults.freeWater : null,
  });
}

function pumpOf({ pump, surroundings }: Job, { foulPa, batteryS }: Faults): PumpSetup {
  const lastsS = batteryS ?? pump.batteryS;
  const usual = vanePump(HOSE, pump.cfm);
  return {
    ...usual,
    ultimatePa: pump.ultimatePa,
    coldFactor: pump.coldFactor,
    oil: {
      ...usual.oil,
      foulPa,
      waterStartPa: pump.oilWaterPa,
      // A larger pump has more oil.
      waterMolPerPa: (usual.oil.waterMolPerPa * pump.cfm) / 4,
    },
    // Warmer surroundings leave less to warm up to.
    runsWarmerK: Math.min(usual.runsWarmerK, 345 - surroundings.temperatureK),
    batteryS: lastsS,
    stoppedInflowPaM3PerS: lastsS === null ? 0 : 5e-3,
  };
}

function farLine({ line: { boreM, lengthM } }: Job): DuctSetup {
  return line([NEAR, 2], boreM, lengthM, FAR_VALVE);
}

function airOf({ insideVapourPa, surroundings, metalTemperatureK }: Job) {
  const air = surroundings.atmospherePa - insideVapourPa;
  return { startPa: { air, water: insideVapourPa, refrigerant: 0 }, metalTemperatureK };
}

function inflow(
  name: string,
  here: boolean,
  paM3PerS: number,
  draft: Partial<InflowSetup> = {},
): InflowSetup[] {
  return here && paM3PerS > 0 ? [leak(name, paM3PerS, draft)] : [];
}
