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
    // A rehearsal has its own place for this and what else is done at the rig.
    ...(rehearsal ? [] : (['nitrogen_break'] as const)),
    'note',
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
