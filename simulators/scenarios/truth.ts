/** What is really wrong with a scenario's system, in a sentence and in numbers. */
import type { Reveal } from '../../protocol/api.ts';
import { WATER_KG_PER_MOL } from '../physics/physical-constants.ts';
import { createRig, waterInRigMol } from '../physics/rig-state.ts';
import type { RigSetup } from '../physics/rig-setup.ts';
import type { Scenario } from './scenario.ts';

export function truthOf(scenario: Scenario): Reveal {
  return {
    name: scenario.card.name,
    truth: scenario.truth,
    leakPaPerS: isolatedLeakPaPerS(scenario.rig, scenario.sensorSection),
    waterKgAtStart: waterInRigMol(createRig(scenario.rig)) * WATER_KG_PER_MOL,
  };
}

/** Steady rise once valved off: the inflow into all that stays connected with the sensor, over its volume. */
function isolatedLeakPaPerS(rig: RigSetup, sensorSection: number): number {
  const open = rig.ducts.filter(({ isolationValve }) => !isolationValve);
  const connected = new Set([sensorSection]);
  let reached = 0;
  while (reached < connected.size) {
    reached = connected.size;
    for (const { between } of open) {
      if (between.some((end) => connected.has(end))) between.forEach((end) => connected.add(end));
    }
  }
  const sections = rig.sections.filter((_, index) => connected.has(index));
  const inflowPaM3PerS = sections.reduce((sum, { leakPaM3PerS }) => sum + leakPaM3PerS, 0);
  return inflowPaM3PerS / sections.reduce((sum, { volumeM3 }) => sum + volumeM3, 0);
}
