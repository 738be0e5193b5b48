/** How a careful technician goes about it, not knowing what is the matter: common practice, no source. */
import { paFromMicron } from '../../protocol/units.ts';
import type { ScriptStep } from './scenario.ts';

/** Half of the usual limit of 500 micron: a hold that starts at its own limit fails at once. */
const DEPTH_PA = paFromMicron(250);
/** Then he valves off all the same, to see what the system does by itself. */
const PATIENCE_S = 40 * 60;
/** A quarter of an hour and a minute, so that its end is seen. */
const HOLD_S = 16 * 60;

const BALLAST_CLOSED: ScriptStep = {
  when: { belowPa: paFromMicron(3000), heldS: 0, orAfterS: PATIENCE_S },
  do: 'ballast_close',
};

const isolated = (patienceS: number): ScriptStep => ({
  when: { belowPa: DEPTH_PA, heldS: 20, orAfterS: patienceS },
  do: 'isolate',
});
const ISOLATED = isolated(PATIENCE_S);

const START: ScriptStep = { when: { afterS: 20 }, do: 'pump_on' };
const END_OF_HOLD: ScriptStep = { when: { afterS: HOLD_S }, do: 'end' };

export const USUAL_SCRIPT: ScriptStep[] = [START, BALLAST_CLOSED, ISOLATED, END_OF_HOLD];

/** A large system has a right to hours. */
export const LARGE_SCRIPT: ScriptStep[] = [START, BALLAST_CLOSED, isolated(100 * 60), END_OF_HOLD];

/** He does not see that the ballast stands open. */
export const BALLAST_FORGOTTEN: ScriptStep[] = [START, ISOLATED, END_OF_HOLD];

/** After a hold that did not please him: nitrogen, every joint tightened, and the same once more. */
export const JOINTS_TIGHTENED: ScriptStep[] = [
  START,
  BALLAST_CLOSED,
  ISOLATED,
  { when: { afterS: HOLD_S }, do: 'break_with_nitrogen' },
  { when: { afterS: 5 * 60 }, do: 'tighten_joints' },
  { when: { afterS: 60 }, do: 'reopen' },
  ISOLATED,
  END_OF_HOLD,
];

/** After the hold he shuts the sensor off from the system, to see what the sensor does alone. */
export const SENSOR_TRIED: ScriptStep[] = [
  START,
  BALLAST_CLOSED,
  ISOLATED,
  { when: { afterS: HOLD_S }, do: 'shut_stub' },
  { when: { afterS: 3 * 60 }, do: 'end' },
];

/** Twenty minutes after the ballast he looks at the pump, whatever the sensor shows. */
export const PUMP_LOOKED_AFTER: ScriptStep[] = [
  START,
  BALLAST_CLOSED,
  isolated(20 * 60),
  { when: { afterS: 60 }, do: 'change_battery' },
  { when: { afterS: 60 }, do: 'reopen' },
  ISOLATED,
  END_OF_HOLD,
];

/** In the middle of the hold he turns what valves there are. */
export const VALVES_TURNED: ScriptStep[] = [
  START,
  BALLAST_CLOSED,
  ISOLATED,
  { when: { afterS: HOLD_S / 2 }, do: 'open_sections' },
  { when: { afterS: HOLD_S / 2 }, do: 'end' },
];

/** After a hold that did not please him he pumps on, and holds once more without what the inner valves shut off. */
export const SECTION_SHUT_OFF: ScriptStep[] = [
  START,
  BALLAST_CLOSED,
  ISOLATED,
  { when: { afterS: HOLD_S }, do: 'reopen' },
  { when: { belowPa: DEPTH_PA, heldS: 20, orAfterS: PATIENCE_S }, do: 'shut_sections' },
  { when: { afterS: 60 }, do: 'isolate' },
  END_OF_HOLD,
];

const broken = (belowMicron: number): ScriptStep => ({
  when: { belowPa: paFromMicron(belowMicron), heldS: 5 * 60, orAfterS: PATIENCE_S },
  do: 'break_with_nitrogen',
});

const SOAKED: ScriptStep[] = [
  { when: { afterS: 10 * 60 }, do: 'ballast_open' },
  { when: { afterS: 5 }, do: 'reopen' },
  BALLAST_CLOSED,
];

/** Broken with nitrogen twice on the way down, the ballast open for each new beginning. */
export const TRIPLE_SCRIPT: ScriptStep[] = [
  START,
  BALLAST_CLOSED,
  broken(1500),
  ...SOAKED,
  broken(1000),
  ...SOAKED,
  ISOLATED,
  END_OF_HOLD,
];
