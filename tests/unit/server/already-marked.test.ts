/** Two people's hands on one thing, by the sensors' clock and by their own. */
import { expect, test } from 'vitest';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import { alreadyMarked } from '../../../server/record/already-marked.ts';

const at = (kind: MarkKind, elapsedS: number, id = 1): Mark => ({
  id,
  kind,
  elapsedS,
  text: '',
  madeBy: 'hand',
});
const isolated = at('isolated', 100);

test.each([
  ['ten seconds of data later', [isolated], at('isolated', 110), null, isolated],
  ['later than that', [isolated], at('isolated', 110.1), null, null],
  [
    'minutes of data later, three seconds by people’s clock',
    [isolated],
    at('isolated', 460),
    3,
    isolated,
  ],
  ['later by both clocks', [isolated], at('isolated', 460), 3.1, null],
  ['in a rehearsal that stood still meanwhile', [isolated], at('isolated', 100), 60, isolated],
  [
    'with something else in between',
    [isolated, at('reopened', 100.5, 2)],
    at('isolated', 101),
    0.2,
    null,
  ],
  ['with a note in between', [isolated, at('note', 101, 2)], at('isolated', 101), 0.2, isolated],
  [
    'of what the rig did by itself',
    [{ ...isolated, madeBy: 'rehearsal' }],
    at('isolated', 101),
    0.2,
    null,
  ],
  ['two notes', [at('note', 100)], at('note', 100), 0, null],
] as const)('%s', (_what, marks, mark, pressedAgoS, known) => {
  const { kind, elapsedS, text } = mark;
  expect(alreadyMarked(marks, { kind, elapsedS, text }, pressedAgoS)).toEqual(known);
});
