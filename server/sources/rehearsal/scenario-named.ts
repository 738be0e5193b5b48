/** From the name on a card to all that is behind it, the cause included: nothing for the pages. */
import { ProblemError } from '../../../protocol/problems.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { generatedScenario } from '../../../simulators/scenarios/generated/generated-scenario.ts';
import type { Scenario } from '../../../simulators/scenarios/scenario.ts';
import { listRehearsals } from './list-rehearsals.ts';

/**
 * @param seed of a generated job, 0 to 2³² − 1; the others are the same for every seed
 * @throws ProblemError `unknown_scenario`
 */
export function scenarioNamed(name: string, seed = 1): Scenario {
  const found =
    ALL_SCENARIOS.find(({ card }) => card.name === name) ?? generatedScenario(name, seed);
  if (found) return found;
  const names = listRehearsals().map((card) => card.name);
  throw new ProblemError('unknown_scenario', `"${name}"; there are ${names.join(', ')}`);
}
