/** Whether a mark by hand says what has just been marked: two people pressed at once. Pure. */
import type { Mark, NewMark } from '../../protocol/mark.ts';

/**
 * Two pages that press for one and the same thing do so within this, s of data time: from then on the
 * other page offers the opposite. A setting of ours.
 */
const AT_ONCE_S = 10;
/**
 * The same by people's own clock, s, for a rehearsal: at 120 times the speed of life, ten seconds of data are
 * 83 ms, and two hands never that close. It is shorter than ten, since the data of ten seconds would be twenty
 * minutes there, in which oil may well be changed twice; and long enough for the first mark to reach the other
 * page and for a hand that is on its way to come down. A setting of ours.
 */
const TWO_HANDS_S = 3;

/**
 * The mark that is there already; null where this one is another. What was marked in between makes it
 * another: closed, opened and closed again is three things. Notes are in words, and all are kept.
 * @param marks those of the recording, the latest last
 * @param pressedAgoS how long ago people pressed for the latest, s by their own clock; null where that is the
 *   recording's clock too, or nobody knows. Elsewhere it must not count: what is entered from a note-book, one
 *   line after the other, happened minutes apart.
 */
export function alreadyMarked(
  marks: readonly Mark[],
  mark: NewMark,
  pressedAgoS: number | null,
): Mark | null {
  if (mark.kind === 'note') return null;
  const latest = marks.findLast(({ kind }) => kind !== 'note');
  if (latest === undefined || latest.kind !== mark.kind || latest.madeBy !== 'hand') return null;
  const isAtOnce =
    Math.abs(latest.elapsedS - mark.elapsedS) <= AT_ONCE_S ||
    (pressedAgoS !== null && pressedAgoS <= TWO_HANDS_S);
  return isAtOnce ? latest : null;
}
