/** What the ways ahead say together: pressures to come, the chance of a depth, and when. */
import { cumulativeStdNormalProbability } from 'simple-statistics';
import type { CurvePoint, Estimate } from '../conclusions.ts';
import type { LogPressure } from './decay-spectrum.ts';
import type { Way } from './prediction.ts';

/** What is not reached within eight hours counts as never reached. */
export const LONGEST_S = 8 * 3600;
/** Moments that are looked at: from half a second to eight hours, each 14 % later than the last. */
const FIRST_S = 0.5;
const MOMENTS = 84;
/** Between two of them the pressures are as good as straight over ln t; a chance may go from none to sure there. */
const FINER = 3;
/** Where it changes by less than this from one to the next there is nothing to see between them. */
const WORTH_A_LOOK = 0.01;
/** What a sensor errs by for minutes on end, as a part of its reading, shows in no fit. From memory. */
const SLOW_SIGMA = 0.004;
/** 10 % point of the normal distribution. */
const Z10 = 1.2816;
/** 5 % point. */
const Z05 = 1.6449;

export interface Outlook {
  /** Chance that the depth is reached within eight hours. */
  readonly chanceOf: (depthPa: number) => number;
  /** When a depth is reached. */
  readonly arrival: (depthPa: number) => Arrival;
  /** Where the pressure stands in eight hours. */
  readonly floorPa: Estimate;
  /** From the present to so long after, s. */
  readonly curve: (nowS: number, lengthS: number) => CurvePoint[];
}

export interface Arrival {
  /** Probability that it is reached by then; it never falls. */
  readonly moments: readonly { readonly afterS: number; readonly chance: number }[];
}

interface Moment {
  readonly afterS: number;
  readonly ways: readonly (LogPressure & { readonly weight: number })[];
}

/** @returns null without any way */
export function outlookOf(ways: readonly Way[]): Outlook | null {
  if (ways.length === 0) return null;
  const growth = (LONGEST_S / FIRST_S) ** (1 / (MOMENTS - 1));
  const moments: Moment[] = Array.from({ length: MOMENTS }, (_, i) => {
    const afterS = FIRST_S * growth ** i;
    return {
      afterS,
      ways: ways.map(({ at, pastS, weight }) => {
        const { log, sigma } = at(pastS + afterS);
        return { log, sigma: Math.hypot(sigma, SLOW_SIGMA), weight };
      }),
    };
  });
  const last = moments.at(-1);
  const first = moments[0];
  // What only decays is never higher than it is now.
  const ceiling = first ? highOf(first, Z05) : 0;
  // The band, the remaining time and the chance all ask for the same two depths.
  const known = new Map<number, Arrival>();
  const arrival = (depthPa: number) => {
    const found = known.get(depthPa) ?? arrivalOf(moments, depthPa);
    known.set(depthPa, found);
    return found;
  };
  return {
    arrival,
    chanceOf: (depthPa) => arrival(depthPa).moments.at(-1)?.chance ?? 0,
    floorPa: last ? estimateOf(last, ceiling) : { estimate: 0, low: 0, high: 0 },
    curve: (nowS, lengthS) => curveOf(moments, nowS, lengthS, ceiling),
  };
}

function arrivalOf(moments: readonly Moment[], depthPa: number): Arrival {
  const depth = Math.log(depthPa);
  const chances = moments.map((moment) => chanceAt(moment, depth));
  let most = 0;
  return {
    moments: finerWhereItChanges(moments, chances).map(({ moment, chance }) => {
      // Once reached is reached: what a mean that rises again would take back counts all the same.
      most = Math.max(most, chance ?? chanceAt(moment, depth));
      return { afterS: moment.afterS, chance: most };
    }),
  };
}

/** That ln P is below the depth. */
function chanceAt({ ways }: Moment, depth: number): number {
  let sum = 0;
  for (const { log, sigma, weight } of ways) {
    sum += weight * cumulativeStdNormalProbability((depth - log) / Math.max(sigma, 1e-4));
  }
  return sum;
}

/** With so many steps in place of one between moments whose chances differ; those of the new ones are not known. */
function finerWhereItChanges(moments: readonly Moment[], chances: readonly number[]) {
  return moments.flatMap((moment, i) => {
    const chance: number | null = chances[i] ?? null;
    const here = { moment, chance };
    const before = moments[i - 1];
    if (!before || Math.abs((chance ?? 0) - (chances[i - 1] ?? 0)) < WORTH_A_LOOK) return [here];
    const steps = Array.from({ length: FINER - 1 }, (_, step) => ({
      moment: between(before, moment, (step + 1) / FINER),
      chance: null,
    }));
    return [...steps, here];
  });
}

function between(before: Moment, after: Moment, share: number): Moment {
  const mix = (from: number, to: number) => from + share * (to - from);
  return {
    afterS: before.afterS * (after.afterS / before.afterS) ** share,
    ways: after.ways.map(({ log, sigma, weight }, i) => {
      const from = before.ways[i] ?? { log, sigma };
      return { log: mix(from.log, log), sigma: mix(from.sigma, sigma), weight };
    }),
  };
}

function estimateOf(moment: Moment, ceilingPa: number): Estimate {
  const { log, spread } = momentsOf(moment);
  const highPa = Math.min(highOf(moment, Z05), ceilingPa);
  return {
    estimate: Math.min(Math.exp(log), highPa),
    low: Math.min(Math.exp(log - Z05 * spread), highPa),
    high: highPa,
  };
}

/** Beyond ten atmospheres no sensor of the trade means anything. */
const ABSURD_PA = 1e6;

function highOf(moment: Moment, z: number): number {
  const { log, spread } = momentsOf(moment);
  return Math.min(Math.exp(log + z * spread), ABSURD_PA);
}

function curveOf(
  moments: readonly Moment[],
  nowS: number,
  lengthS: number,
  ceilingPa: number,
): CurvePoint[] {
  return moments
    .filter(({ afterS }) => afterS <= lengthS)
    .map((moment) => {
      const { log, spread } = momentsOf(moment);
      const highPa = Math.min(highOf(moment, Z10), ceilingPa);
      return {
        elapsedS: nowS + moment.afterS,
        lowPa: Math.min(Math.exp(log - Z10 * spread), highPa),
        midPa: Math.min(Math.exp(log), highPa),
        highPa,
      };
    });
}

/** Mean and standard deviation of ln P over all ways. */
function momentsOf({ ways }: Moment): { readonly log: number; readonly spread: number } {
  let mean = 0;
  let square = 0;
  for (const { log, sigma, weight } of ways) {
    mean += weight * log;
    square += weight * (log * log + sigma * sigma);
  }
  return { log: mean, spread: Math.sqrt(Math.max(square - mean * mean, 0)) };
}
