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

/** ln of in how many orders the members of a set could have been drawn. */
const LOG_FACTORIALS = [0, 0, Math.log(2), Math.log(6)] as const;

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
  const logShares = shares.map((share) => Math.log(share / total));
  const logAmount = Math.log(amountScalePa);
  const logSizes = PRIOR_BY_SIZE.map((prior) => Math.log(prior));
  return setsOf(releases).map((members) => {
    let logShare = 0;
    for (const place of members) logShare += logShares[place] ?? 0;
    const count = members.length;
    const logSize = logSizes[count] ?? 0;
    return {
      members,
      logPrior: logSize + logShare + (LOG_FACTORIALS[count] ?? 0) - count * logAmount,
    };
  });
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

/** Of the places that were asked for last: mostly they are the same at the next judging. */
let known: { readonly releases: readonly number[]; readonly sets: readonly number[][] } = {
  releases: [],
  sets: [[]],
};

/** All sets of none to three of them. */
function setsOf(releases: readonly number[]): readonly number[][] {
  const isKnown =
    releases.length === known.releases.length &&
    releases.every((place, i) => place === known.releases[i]);
  if (!isKnown) known = { releases, sets: newSetsOf(releases) };
  return known.sets;
}

function newSetsOf(releases: readonly number[]): number[][] {
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
