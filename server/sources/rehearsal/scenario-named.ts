/** From the name on a card to all that is behind it, the cause included: nothing for the pages. */
import { ProblemError } from '../../../protocol/problems.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import type { Scenario } from '../../../simulators/scenarios/scenario.ts';

/** @throws ProblemError `unknown_scenario` */
export function scenarioNamed(name: string): Scenario {
  const found = ALL_SCENARIOS.find(({ card }) => card.name === name);
  if (found) return found;
  const names = ALL_SCENARIOS.map(({ card }) => card.name).join(', ');
  throw new ProblemError('unknown_scenario', `"${name}"; there are ${names}`);
}
