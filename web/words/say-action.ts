/** What a technician can do beyond pump, ballast and valve, and that something changed nothing. */
import type { RehearsalAction } from '../../protocol/api.ts';
import type { MarkKind } from '../../protocol/mark.ts';
import type { Speech } from './speech.ts';

/** On the button that does it in a rehearsal; elsewhere, and for the rest, that it has been done. */
export function sayDoing(kind: MarkKind, rehearsal: boolean, { wording }: Speech): string {
  const does: Partial<Record<MarkKind, string>> = wording.marks.does;
  return (rehearsal ? does[kind] : undefined) ?? wording.marks.buttons[kind];
}

/** Beside that button; empty where there is nothing to take care of. */
export function sayMarkCaution(kind: MarkKind, { wording }: Speech): string {
  const cautions: Partial<Record<MarkKind, string>> = wording.marks.cautions;
  return cautions[kind] ?? '';
}

export function sayUnchanged(action: RehearsalAction, { wording }: Speech): string {
  return wording.marks.changesNothing({ why: wording.marks.unchanged[action] });
}
