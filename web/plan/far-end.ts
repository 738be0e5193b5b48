/** The end of a system that comes down last, and the lines on the way to it. Pure. */
import type { FarPart } from './far-parts.ts';

/** A line on the way, with the share of all the gas that comes through it. */
export interface LineOnTheWay {
  readonly boreM: number;
  readonly lengthM: number;
  readonly gasShare: number;
}

export interface FarEnd {
  /** Where it stands in the list. */
  readonly index: number;
  /** From the far end to the hose. */
  readonly lines: readonly LineOnTheWay[];
}

/** Null where no long line lies in the way. */
export function farEndOf(far: readonly FarPart[]): FarEnd | null {
  const ends = far.map((_, index) => ({ index, lines: linesFrom(index, far) }));
  return ends.sort((a, b) => resists(b) - resists(a))[0] ?? null;
}

function linesFrom(index: number, far: readonly FarPart[]): LineOnTheWay[] {
  const part = far[index];
  if (part === undefined) return [];
  const { boreM, lengthM, after } = part;
  const line = { boreM, lengthM, gasShare: shareBehind(index, far) };
  return after === null ? [line] : [line, ...linesFrom(after, far)];
}

/** Of the part itself and of all that hangs on it. */
function shareBehind(index: number, far: readonly FarPart[]): number {
  return far.reduce(
    (total, { after }, at) => (after === index ? total + shareBehind(at, far) : total),
    far[index]?.share ?? 0,
  );
}

function resists({ lines }: FarEnd): number {
  return lines.reduce(
    (total, { boreM, lengthM, gasShare }) => total + (gasShare * lengthM) / boreM ** 4,
    0,
  );
}
