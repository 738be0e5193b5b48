/** Marks, on flags and on buttons. */
import type { Mark, MarkKind } from '../../protocol/mark.ts';

export const MARK_NAMES: Readonly<Record<MarkKind, string>> = {
  pump_on: 'pump on',
  pump_off: 'pump off',
  ballast_opened: 'ballast opened',
  ballast_closed: 'ballast closed',
  isolated: 'valve off',
  reopened: 'valve open again',
  nitrogen_break: 'nitrogen break',
  cores_out: 'cores out',
  oil_changed: 'oil changed',
  battery_changed: 'battery changed',
  joints_tightened: 'joints tightened',
  sections_opened: 'inner valves opened',
  stub_shut: 'sensor alone on its stub',
  stub_opened: 'sensor on the system again',
  note: 'note',
};

/** What a flag has room for. */
const LONGEST = 32;

export function sayMark(mark: Mark): string {
  if (mark.kind !== 'note') return MARK_NAMES[mark.kind];
  if (mark.text === '') return MARK_NAMES.note;
  return mark.text.length > LONGEST ? `${mark.text.slice(0, LONGEST - 1)}…` : mark.text;
}

/** As buttons: what has just been done. */
export const MARK_BUTTONS: Readonly<Record<MarkKind, string>> = {
  pump_on: 'Pump on',
  pump_off: 'Pump off',
  ballast_opened: 'Ballast opened',
  ballast_closed: 'Ballast closed',
  isolated: 'Valved off',
  reopened: 'Valve open again',
  nitrogen_break: 'Nitrogen break',
  cores_out: 'Cores taken out',
  oil_changed: 'Oil changed',
  battery_changed: 'Battery changed',
  joints_tightened: 'Joints tightened',
  sections_opened: 'Inner valves opened',
  stub_shut: 'Sensor shut off on its stub',
  stub_opened: 'Stub opened again',
  note: 'Note…',
};
