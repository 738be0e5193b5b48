/** What was lost with a damaged file is found again in the recording's marks. */
import { expect, test } from 'vitest';
import type { Mark } from '../../../protocol/mark.ts';
import { salvagesOf, writeSalvageNote } from '../../../protocol/salvage-note.ts';

const LOST = { readings: { saved: 688, atLeast: 1598 }, otherFacts: { saved: 9, atLeast: 12 } };
const noted = (id: number, change: Partial<Mark> = {}): Mark => {
  const text = writeSalvageNote(LOST, 'record.damaged-1');
  return { id, kind: 'note', elapsedS: 7, text, madeBy: 'bridge', ...change };
};

test('what was written is read back, once however many jobs have the note', () => {
  expect(salvagesOf([noted(1), noted(2, { elapsedS: 90 })])).toEqual([LOST]);
});

test('another damage is told apart, the earlier one first', () => {
  const more = { ...LOST, readings: { saved: 1, atLeast: 2 } };
  const later = noted(9, { text: writeSalvageNote(more, 'record.damaged-2') });
  expect(salvagesOf([later, noted(1)])).toEqual([LOST, more]);
});

test('neither a hand’s note of the same words nor another note of the bridge is one', () => {
  expect(
    salvagesOf([noted(1, { madeBy: 'hand' }), noted(2, { text: 'The computer slept' })]),
  ).toEqual([]);
});
