/** Which marks can sensibly be set now: pure. */
import type { Mark, MarkKind } from '../../protocol/mark.ts';

/** Each thing of the rig is on or off, open or closed: only the other way is offered. */
export function markChoices(marks: readonly Mark[], rehearsal: boolean): MarkKind[] {
  const pump = latestOf(marks, ['pump_on', 'pump_off']);
  const ballast = latestOf(marks, ['ballast_opened', 'ballast_closed']);
  const valve = latestOf(marks, ['isolated', 'reopened']);
  return [
    pump === 'pump_on' ? 'pump_off' : 'pump_on',
    ballast === 'ballast_closed' ? 'ballast_opened' : 'ballast_closed',
    valve === 'isolated' ? 'reopened' : 'isolated',
    // In a rehearsal pressing it does it: that is kept one step further away.
    ...(rehearsal ? [] : (['nitrogen_break'] as const)),
    'note',
  ];
}

/** What is done now and then, and may help or mislead. */
export function moreChoices(marks: readonly Mark[], rehearsal: boolean): MarkKind[] {
  const inner = latestOf(marks, ['sections_shut', 'sections_opened']);
  const stub = latestOf(marks, ['stub_shut', 'stub_opened']);
  return [
    ...(rehearsal ? (['nitrogen_break'] as const) : []),
    'cores_out',
    'oil_changed',
    'battery_changed',
    'joints_tightened',
    // Nobody has said how they stood at first.
    ...(inner === 'sections_shut' ? [] : (['sections_shut'] as const)),
    ...(inner === 'sections_opened' ? [] : (['sections_opened'] as const)),
    ...(rehearsal ? [] : (['cores_in', 'sensor_isolated', 'charge_released'] as const)),
    stub === 'stub_shut' ? 'stub_opened' : 'stub_shut',
  ];
}

function latestOf(marks: readonly Mark[], kinds: readonly MarkKind[]): MarkKind | null {
  return (
    marks
      .filter((mark) => kinds.includes(mark.kind))
      .reduce<Mark | null>(
        (last, mark) => (last !== null && last.elapsedS > mark.elapsedS ? last : mark),
        null,
      )?.kind ?? null
  );
}
