/** The project's own simulated rigs as a world. */
import { simulatedPullDown } from './simulated-pull-down.ts';
import { simulatedRepeat, simulatedRise } from './simulated-rise.ts';
import type { World } from './trials.ts';

export const SIMULATED_WORLD: World = {
  name: 'simulated',
  pullDown: simulatedPullDown,
  rise: simulatedRise,
  repeat: simulatedRepeat,
};
