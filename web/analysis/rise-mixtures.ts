/** What levels off, as mixtures of none to three time constants of the grid, and how likely each is beforehand. */
import { releasesUsed } from './releases-used.ts';
import type { Design } from './rise-design.ts';

/** Most amounts in one mixture. */
export const MOST_AMOUNTS = 3;

/** One mixture of time constants: places of its shapes in the design. */
export interface Mixture {
  readonly members: readonly number[];
  readonly logPrior: number;
}

/** ln of the prior of a mixture of so many: an amount more has to earn its place. */
const PRIOR_BY_SIZE = [0.2, 0.35, 0.28, 0.17] as const;

/** Of the places far from any that the best fit uses, only every so many-th is looked at. */
const COARSE = 2;
/** Near is so many places away. */
const NEAR = 1;

/** Releases that take longer than this are the rarer, s. A setting of ours. */
const USUAL_S = 900;

export function mixturesOf(design: Design): Mixture[] {
  const { shapes, amountScalePa } = design;
  const releases = worthTrying(design);
  // A time constant stands for all that are nearer to it than to its neighbours.
  const shares = shapes.map(() => 0);
  for (const [k, place] of releases.entries()) {
    const before = releases[k - 1] ?? place - COARSE;
    const after = releases[k + 1] ?? place + COARSE;
    shares[place] = ((after - before) / 2) * Math.min(USUAL_S / (shapes[place]?.tauS ?? 1), 1);
  }
  const total = shares.reduce((sum, share) => sum + share, 0);
  return setsOf(releases).map((members) => ({
    members,
    logPrior:
      Math.log(PRIOR_BY_SIZE[members.length] ?? 1) +
      members.reduce((sum, place) => sum + Math.log((shares[place] ?? 1) / total), 0) +
      Math.log(factorial(members.length)) -
      members.length * Math.log(amountScalePa),
  }));
}

/**
 * A time constant between two of the grid looks like a bend that only a leak could make: near those
 * that the best fit uses, with a leak and without, the grid is tried as fine as it is.
 */
function worthTrying(design: Design): number[] {
  const used = [true, false].flatMap((withLeak) => releasesUsed(design, withLeak));
  return design.shapes.flatMap((_, place) => {
    if (place === 0) return [];
    const isNear = used.some((other) => Math.abs(other.place - place) <= NEAR);
    return isNear || place % COARSE === 1 ? [place] : [];
  });
}

function setsOf(releases: readonly number[]): number[][] {
  const sets: number[][] = [[]];
  for (const [i, a] of releases.entries()) {
    sets.push([a]);
    for (const [j, b] of releases.slice(i + 1).entries()) {
      sets.push([a, b]);
      for (const c of releases.slice(i + j + 2)) sets.push([a, b, c]);
    }
  }
  return sets;
}

function factorial(of: number): number {
  return of < 2 ? 1 : of * factorial(of - 1);
}
