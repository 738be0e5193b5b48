import type { Mark } from '../../../protocol/mark.ts';

/** A mark as an imported file makes it. */
export function mark(id: number, kind: Mark['kind'], elapsedS: number): Mark {
  return { id, kind, elapsedS, text: '', madeBy: 'import' };
}
