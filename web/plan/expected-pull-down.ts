/**
 * How the pressure of a dry, tight system should fall on a given rig, by the physical model of the
 * rehearsals: the volume at the hose, and what lies behind long lines. Pure. No water, no oil, no leak: a real pull-down is slower towards its end.
 */
import { STANDARD_ATMOSPHERE_PA } from '../../protocol/units.ts';
import { advance } from '../../simulators/physics/advance.ts';
import { type Controls, controlsAsFound } from '../../simulators/physics/controls.ts';
import { createRig, totalPressurePa } from '../../simulators/physics/rig-state.ts';
import {
  type DuctSetup,
  type RigSetup,
  rigSetupSchema,
} from '../../simulators/physics/rig-setup.ts';
import type { SectionSetup } from '../../simulators/physics/section-setup.ts';
import { FAIR_WEATHER } from '../../simulators/physics/surroundings.ts';
import { CORE_OPENING_M } from './core-opening.ts';
import { farEndOf } from './far-end.ts';
import type { FarPart } from './far-parts.ts';
import type { PlannedRig } from './planned-rig.ts';

interface ExpectedPoint {
  /** Since the pump was switched on, the system full of air. */
  readonly sinceS: number;
  readonly pressurePa: number;
}

/** Pressures never rise from one point to the next; the first is atmospheric, at 0 s. */
export type ExpectedCurve = readonly ExpectedPoint[];

const PUMPING: Controls = { ...controlsAsFound({ valves: [] }), pumpOn: true };
/** A system that takes a working day to pump down is not what anybody plans. */
const LONGEST_S = 8 * 3600;
/** Deeper than the trade's sensors resolve: 1 micron is 0.13 Pa. */
const LOWEST_PA = 0.1;
/** The steps are so short that the pressure falls by 5 % at first … */
const FIRST_STEPS = 0.05;
/** … and later by so much of the time that has gone by: fine enough for logarithms on both axes. */
const LATER_STEPS = 0.05;
/** So near to the pump's ultimate pressure there is nothing more to come. */
const AT_FLOOR = 1.01;
/** In the rig's list of sections, after the system at the hose and the hoses. */
const FIRST_FAR = 2;
const LEAST_NEAR = 0.005;

/** Where a sensor may sit, when long lines lie between: at the hose, or at the end that comes down last. */
export type SystemEnd = 'near' | 'far';

export function expectedPullDown(rig: PlannedRig, end: SystemEnd = 'far'): ExpectedCurve {
  const farEnd = end === 'near' ? null : farEndOf(rig.far);
  const seen = farEnd === null ? 0 : FIRST_FAR + farEnd.index;
  let state = createRig(setupOf(rig));
  const firstStepS = (FIRST_STEPS * rig.volumeM3) / rig.pumpDisplacementM3PerS;
  const points: ExpectedPoint[] = [{ sinceS: 0, pressurePa: STANDARD_ATMOSPHERE_PA }];
  const endPa = Math.max(LOWEST_PA, AT_FLOOR * rig.pumpUltimatePa);
  let pressurePa = STANDARD_ATMOSPHERE_PA;
  while (state.elapsedS < LONGEST_S && pressurePa > endPa) {
    state = advance(state, Math.max(firstStepS, LATER_STEPS * state.elapsedS), PUMPING);
    pressurePa = totalPressurePa(state, seen);
    points.push({ sinceS: state.elapsedS, pressurePa });
  }
  // What has come to its end stays there.
  if (state.elapsedS < LONGEST_S) points.push({ sinceS: LONGEST_S, pressurePa });
  return points;
}

/**
 * When the curve comes down to a pressure, s; null where it never does, or only after hours.
 * Between two points the logarithm of the pressure falls evenly, as it does for a steady speed.
 */
export function timeToS(curve: ExpectedCurve, pressurePa: number): number | null {
  const next = curve.findIndex((point) => point.pressurePa <= pressurePa);
  const after = curve[next];
  if (after === undefined) return null;
  const before = curve[next - 1];
  if (before === undefined) return after.sinceS;
  const fallen = Math.log(before.pressurePa / pressurePa);
  const share = fallen / Math.log(before.pressurePa / after.pressurePa);
  return before.sinceS + share * (after.sinceS - before.sinceS);
}

/** Where the curve stands, Pa: at its first point before it begins, at its last one after it ends. */
export function pressureAtPa(curve: ExpectedCurve, sinceS: number): number {
  const next = curve.findIndex((point) => point.sinceS >= sinceS);
  const after = curve[next] ?? curve.at(-1);
  const before = curve[next - 1];
  if (after === undefined) return Number.NaN;
  if (before === undefined || after.sinceS === before.sinceS) return after.pressurePa;
  const share = (sinceS - before.sinceS) / (after.sinceS - before.sinceS);
  return before.pressurePa * (after.pressurePa / before.pressurePa) ** share;
}

function setupOf(rig: PlannedRig): RigSetup {
  const hoseVolumeM3 = rig.hoseCount * (Math.PI / 4) * rig.hoseBoreM ** 2 * rig.hoseLengthM;
  const farShare = rig.far.reduce((total, { share }) => total + share, 0);
  // Something lies at the hose, be it the valve's own body.
  const nearM3 = rig.volumeM3 * Math.max(1 - farShare, LEAST_NEAR);
  return rigSetupSchema.parse({
    surroundings: FAIR_WEATHER,
    sections: [
      dry('system', nearM3),
      dry('hoses', hoseVolumeM3),
      ...rig.far.map(({ share }) => dry('far', share * rig.volumeM3)),
    ],
    ducts: [
      {
        between: [0, 1],
        diameterM: rig.hoseBoreM,
        lengthM: rig.hoseLengthM,
        count: rig.hoseCount,
        coreDiameterM: rig.coreInPlace ? CORE_OPENING_M : null,
        valve: null,
        oneWay: false,
      },
      ...rig.far.map((part, at) => lineTo(FIRST_FAR + at, part)),
    ],
    valves: [],
    pump: {
      section: 1,
      displacementM3PerS: rig.pumpDisplacementM3PerS,
      ultimatePa: rig.pumpUltimatePa,
      ballastPa: 0,
      ballastShare: 0,
      stoppedInflowPaM3PerS: 0,
      // Dry air leaves no water behind, and a pump that is warm already is the one that plans hold for.
      oil: { foulPa: 0, waterMolPerPa: 1, waterStartPa: 0, clearingS: 1, dryingS: 1 },
      runsWarmerK: 0,
      warmingS: 1,
      coldFactor: 1,
      batteryS: null,
    },
    nitrogen: null,
  } satisfies RigSetup);
}

function lineTo(section: number, { boreM, lengthM, after }: FarPart): DuctSetup {
  return {
    between: [after === null ? 0 : FIRST_FAR + after, section],
    diameterM: boreM,
    lengthM,
    count: 1,
    coreDiameterM: null,
    valve: null,
    oneWay: false,
  };
}

function dry(name: string, volumeM3: number): SectionSetup {
  return {
    name,
    volumeM3,
    startPa: { air: STANDARD_ATMOSPHERE_PA, water: 0, refrigerant: 0 },
    metalTemperatureK: FAIR_WEATHER.temperatureK,
    inflows: [],
    reservoirs: [],
    puddle: null,
  };
}
