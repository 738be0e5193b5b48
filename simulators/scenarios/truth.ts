/** What is really wrong with a scenario's system, in words and in numbers. */
import type { Reveal } from '../../protocol/api.ts';
import { controlsAsFound } from '../physics/controls.ts';
import { inflowPaM3PerS } from '../physics/inflow.ts';
import { totalOf } from '../physics/gases.ts';
import { WATER_KG_PER_MOL } from '../../protocol/gas-constants.ts';
import { contentMol, createRig } from '../physics/rig-state.ts';
import { ISOLATION } from './building-blocks.ts';
import type { Placed, Scenario } from './scenario.ts';

/** All but what depends on how it was played. */
export function truthOf(scenario: Scenario): Omit<Reveal, 'toldS'> {
  return {
    name: scenario.card.name,
    cause: scenario.cause,
    truth: scenario.truth,
    tells: scenario.tells,
    leakPaPerS: seenOnceIsolated(scenario).risePaPerS,
    waterKgAtStart: contentMol(createRig(scenario.rig)).water * WATER_KG_PER_MOL,
    ballastOpenAtStart: scenario.ballastOpen,
  };
}

interface Seen {
  readonly volumeM3: number;
  readonly risePaPerS: number;
}

/**
 * What the sensor sees once valved off, everything else as found: the volume of all that stays
 * connected with it, and the steady rise by what flows into that. Refrigerant past a valve counts: on
 * the curve it is a leak like any other.
 */
export function seenOnceIsolated({ rig, sensorSection }: Placed): Seen {
  const shut: Readonly<Record<string, number>> = {
    ...controlsAsFound(rig).openings,
    [ISOLATION]: 0,
  };
  const open = rig.ducts.filter(({ valve }) => valve === null || (shut[valve] ?? 1) > 0);
  const connected = new Set([sensorSection]);
  let reached = 0;
  while (reached < connected.size) {
    reached = connected.size;
    for (const { between } of open) {
      if (between.some((end) => connected.has(end))) between.forEach((end) => connected.add(end));
    }
  }
  const sections = rig.sections.filter((_, index) => connected.has(index));
  const inflow = sections
    .flatMap(({ inflows }) => inflows)
    .reduce(
      (sum, leak) => sum + totalOf(inflowPaM3PerS(leak, 0, rig.surroundings, { tightened: false })),
      0,
    );
  const volumeM3 = sections.reduce((sum, section) => sum + section.volumeM3, 0);
  return { volumeM3, risePaPerS: inflow / volumeM3 };
}
