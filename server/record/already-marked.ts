/** Whether a mark by hand says what has just been marked: two people pressed at once. Pure. */
import type { Mark, NewMark } from '../../protocol/mark.ts';

/**
 * Two pages that press for one and the same thing do so within this, s of data time: from then on the
 * other page offers the opposite. A setting of ours.
 */
const AT_ONCE_S = 10;

/**
 * The mark that is there already; null where this one is another. What was marked in between makes it
 * another: closed, opened and closed again is three things. Notes are in words, and all are kept.
 * @param marks those of the recording, the latest last
 */
export function alreadyMarked(marks: readonly Mark[], mark: NewMark): Mark | null {
  if (mark.kind === 'note') return null;
  const latest = marks.findLast(({ kind }) => kind !== 'note');
  if (latest === undefined || latest.kind !== mark.kind || latest.madeBy !== 'hand') return null;
  return Math.abs(latest.elapsedS - mark.elapsedS) <= AT_ONCE_S ? latest : null;
}
