/** How a job would go without its leaks and with a perfect sensor: what limits are held against. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { advance } from '../../physics/advance.ts';
import { controlsAsFound, type Controls } from '../../physics/controls.ts';
import { perGas, totalOf, type PerGas } from '../../physics/gases.ts';
import { batteryLeftS } from '../../physics/pump.ts';
import { createRig, partialPressuresPa, type RigState } from '../../physics/rig-state.ts';
import type { RigSetup } from '../../physics/rig-setup.ts';
import { ISOLATION } from '../building-blocks.ts';
import { build } from './build.ts';
import type { Faults } from './faults.ts';
import type { Job } from './job.ts';

/** Looked at so often, as a share of the time that has passed: coarse enough to be quick. */
const LOOK_SHARE = 0.05;
const SHORTEST_LOOK_S = 2;
/** The ballast is closed below this: common practice, no source. */
export const CLOSE_BALLAST_PA = paFromMicron(3000);

export interface Trial {
  /** When it was deep enough to be valved off; null: not before patience ended. */
  readonly deepAtS: number | null;
  /** The battery had run out by then. */
  readonly batteryRanOut: boolean;
  /** The vapour that was left when it was valved off, and the rise of each gas over the hold, as shown, Pa. */
  readonly leftPa: PerGas<number>;
  readonly risePa: PerGas<number>;
}

export function trialOf(job: Job, faults: Faults): Trial {
  const { rig, sensorSection } = build(job, faults);
  const setup = withoutInflows(rig);
  const shownPa = (state: RigState): PerGas<number> => {
    const partialPa = partialPressuresPa(state, sensorSection);
    return perGas((gas) => job.sensor.shownPerPa[gas] * partialPa[gas]);
  };
  let state = createRig(setup);
  let controls: Controls = {
    ...controlsAsFound(setup),
    pumpOn: true,
    ballastOpen: job.ballastAtStart || faults.ballastForgotten,
  };
  let deepAtS: number | null = null;
  while (deepAtS === null && state.elapsedS < job.patienceS) {
    const lookS = Math.max(SHORTEST_LOOK_S, LOOK_SHARE * state.elapsedS);
    state = advance(state, lookS, controls);
    const pressurePa = totalOf(shownPa(state));
    if (pressurePa < CLOSE_BALLAST_PA && !faults.ballastForgotten)
      controls = { ...controls, ballastOpen: false };
    if (pressurePa < job.depthPa) deepAtS = state.elapsedS;
  }
  if (deepAtS !== null) state = advance(state, job.pumpOnS, controls);
  const leftPa = shownPa(state);
  const batteryRanOut = batteryLeftS(setup.pump, state.pump) === 0;
  const shut = { ...controls, openings: { ...controls.openings, [ISOLATION]: 0 } };
  const heldPa = shownPa(advance(state, DEFAULT_SHEET.holdS, shut));
  return {
    deepAtS,
    batteryRanOut,
    leftPa,
    risePa: perGas((gas) => heldPa[gas] - leftPa[gas]),
  };
}

function withoutInflows(rig: RigSetup): RigSetup {
  return { ...rig, sections: rig.sections.map((section) => ({ ...section, inflows: [] })) };
}
