/** Sets a mark: in a rehearsal by doing it to the simulated rig, which then marks it itself. */
import type { RehearsalAction } from '../../protocol/api.ts';
import type { MarkKind } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import { addMark, type Answer, steerRehearsal } from '../connection/bridge-api.ts';

const ACTIONS: Partial<Record<MarkKind, RehearsalAction>> = {
  pump_on: 'pump_on',
  pump_off: 'pump_off',
  ballast_opened: 'ballast_open',
  ballast_closed: 'ballast_close',
  isolated: 'isolate',
  reopened: 'reopen',
  nitrogen_break: 'break_with_nitrogen',
  cores_out: 'take_cores_out',
  oil_changed: 'change_oil',
  battery_changed: 'change_battery',
  joints_tightened: 'tighten_joints',
  sections_shut: 'shut_sections',
  sections_opened: 'open_sections',
  stub_shut: 'shut_stub',
  stub_opened: 'open_stub',
};

export function setMark(
  recording: Recording,
  kind: MarkKind,
  elapsedS: number,
  text = '',
): Promise<Answer<unknown>> {
  const action = recording.origin === 'rehearsal' ? ACTIONS[kind] : undefined;
  return action === undefined ? addMark(recording.id, { kind, elapsedS, text }) : act(action);
}

async function act(action: RehearsalAction): Promise<Answer<unknown>> {
  const answer = await steerRehearsal({ action });
  return answer.ok ? answer : { ...answer, action };
}
