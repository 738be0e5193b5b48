/** How a careful technician goes about it: common practice, no source. */
import { paFromMicron } from '../../protocol/units.ts';
import type { ScriptStep } from './scenario.ts';

/** Half of the usual limit of 500 micron: a hold that starts at its own limit fails at once. */
const DEPTH_PA = paFromMicron(250);

export const USUAL_SCRIPT: ScriptStep[] = [
  { when: { afterS: 20 }, do: 'pump_on' },
  { when: { belowPa: paFromMicron(3000), heldS: 0 }, do: 'ballast_close' },
  { when: { belowPa: DEPTH_PA, heldS: 20 }, do: 'isolate' },
  // A hold of a quarter of an hour and a minute, so that its end is seen.
  { when: { afterS: 16 * 60 }, do: 'end' },
];
