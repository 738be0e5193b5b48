/** What a technician can do beyond pump, ballast and valve, and that something changed nothing. */
import type { RehearsalAction } from '../../protocol/api.ts';
import type { MarkKind } from '../../protocol/mark.ts';

/** As buttons in a rehearsal, where pressing does it; elsewhere it has been done by hand before. */
export const DO_BUTTONS: Partial<Readonly<Record<MarkKind, string>>> = {
  nitrogen_break: 'Break with nitrogen',
  cores_out: 'Take the cores out',
  oil_changed: 'Change the pump’s oil',
  battery_changed: 'Change the pump’s battery',
  joints_tightened: 'Tighten the joints',
  sections_opened: 'Open the inner valves',
  stub_shut: 'Shut the sensor off on its stub',
  stub_opened: 'Open the stub again',
};

export const MORE_WORDS = {
  toDo: 'More to do',
  toMark: 'More to mark',
  doHelp: 'Done to the simulated rig at once, and marked on the curve.',
  markHelp: 'Mark what has just been done.',
} as const;

const UNCHANGED: Readonly<Record<RehearsalAction, string>> = {
  pump_on: 'the pump is on already',
  pump_off: 'the pump is off already',
  ballast_open: 'the gas ballast is open already',
  ballast_close: 'the gas ballast is closed already',
  isolate: 'the valve is closed already',
  reopen: 'the valve is open already',
  take_cores_out: 'there is no core left in',
  change_oil: 'the pump’s oil is as good as new',
  change_battery: 'this pump has no battery, or a full one',
  tighten_joints: 'the joints have been tightened already',
  break_with_nitrogen: 'it stands under nitrogen already',
  open_sections: 'the inner valves are open already, or this rig has none',
  shut_stub: 'the sensor is shut off already, or has no valve of its own',
  open_stub: 'the sensor is open to the system already, or has no valve of its own',
};

export function sayUnchanged(action: RehearsalAction): string {
  return `That changes nothing: ${UNCHANGED[action]}. No mark was made.`;
}
