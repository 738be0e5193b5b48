/** Marks, on flags. */
import type { Mark } from '../../protocol/mark.ts';
import type { Speech } from './speech.ts';

/** What a flag has room for. */
const LONGEST = 32;

export function sayMark(mark: Mark, { wording }: Speech): string {
  const name = wording.marks.names[mark.kind];
  if (mark.kind !== 'note' || mark.text === '') return name;
  return mark.text.length > LONGEST ? `${mark.text.slice(0, LONGEST - 1)}…` : mark.text;
}
