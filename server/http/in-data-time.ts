/**
 * Recorded readings in the order in which they were measured. The record has them in the order in which it
 * took them: what was fetched after a lost link comes late there.
 */
import type { Reading } from '../../protocol/reading.ts';

/**
 * @param chunks begins anew with each call: all readings in the order of the record, in the same parts
 * @returns the same in the order of data time. Only the late ones are ever all in memory.
 */
export function* inDataTime<T extends Reading>(
  chunks: () => Iterable<readonly T[]>,
): Generator<readonly T[]> {
  const late: T[] = [];
  for (const part of splitLate(chunks())) late.push(...part.late);
  late.sort(byTime);
  let next = 0;
  for (const { onTime } of splitLate(chunks())) {
    const untilS = onTime.at(-1)?.elapsedS ?? -Infinity;
    const before = next;
    while ((late[next]?.elapsedS ?? Infinity) < untilS) next += 1;
    yield [...onTime, ...late.slice(before, next)].sort(byTime);
  }
  yield late.slice(next);
}

/** Late is what was measured before something of an earlier part. */
function* splitLate<T extends Reading>(
  chunks: Iterable<readonly T[]>,
): Generator<{ readonly onTime: readonly T[]; readonly late: readonly T[] }> {
  let latestS = -Infinity;
  for (const chunk of chunks) {
    const sorted = [...chunk].sort(byTime);
    yield {
      onTime: sorted.filter(({ elapsedS }) => elapsedS >= latestS),
      late: sorted.filter(({ elapsedS }) => elapsedS < latestS),
    };
    latestS = Math.max(latestS, sorted.at(-1)?.elapsedS ?? -Infinity);
  }
}

function byTime(a: Reading, b: Reading): number {
  return a.elapsedS - b.elapsedS || a.index - b.index;
}
