/** What was typed last, slips among it, the latest first: pure. */
import type { Reading } from '../../protocol/reading.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';

export interface TypedEntry {
  readonly index: number;
  readonly elapsedS: number;
  readonly pressurePa: number | null;
  /** What became of a slip; null for a reading that stands. */
  readonly takenBack: TakenBack | null;
}

/** In the order in which they were typed, which need not be that in which they were read off. */
export function lastTyped(
  readings: readonly Reading[],
  takenBack: readonly TakenBack[],
  most: number,
): TypedEntry[] {
  const standing = readings.map(({ index, elapsedS, pressurePa }) => {
    return { index, elapsedS, pressurePa, takenBack: null };
  });
  const slips = takenBack.map((slip) => ({ ...slip, takenBack: slip }));
  return [...standing, ...slips].sort((a, b) => b.index - a.index).slice(0, most);
}
