/** What can be rehearsed, without the cause. */
import type { RehearsalCard } from '../../../protocol/api.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { GENERATED_CARDS } from '../../../simulators/scenarios/generated/generated-scenario.ts';

export function listRehearsals(): RehearsalCard[] {
  return [...ALL_SCENARIOS.map(({ card }) => card), ...GENERATED_CARDS];
}
