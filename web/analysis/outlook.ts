/** What the ways ahead say together: pressures to come, the chance of a depth, and when. */
import { cumulativeStdNormalProbability } from 'simple-statistics';
import type { CurvePoint, Estimate, Remaining } from './conclusions.ts';
import { logPressureAt, type LogPressure } from './decay-spectrum.ts';
import type { Way } from './prediction.ts';

/** What is not reached within eight hours counts as never reached. */
export const LONGEST_S = 8 * 3600;
/** Moments that are looked at: from half a second to eight hours, each 14 % later than the last. */
const FIRST_S = 0.5;
const MOMENTS = 84;
/** 10 % point of the normal distribution. */
const Z10 = 1.2816;
/** 5 % point. */
const Z05 = 1.6449;

export interface Outlook {
  /** Chance that the depth is reached within eight hours. */
  readonly chanceOf: (depthPa: number) => number;
  /** Quantiles of the time to a depth; infinite where it is never reached with that probability. */
  readonly arrival: (depthPa: number) => Arrival;
  /** Where the pressure stands in eight hours. */
  readonly floorPa: Estimate;
  /** From the present to so long after, s. */
  readonly curve: (nowS: number, lengthS: number) => CurvePoint[];
}

export interface Arrival {
  /** Probability that it is reached by then. */
  readonly reachedBy: (afterS: number) => number;
  readonly quantileS: (probability: number) => number;
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
      ways: ways.map(({ fit, pastS, weight }) => ({
        ...logPressureAt(fit, pastS + afterS),
        weight,
      })),
    };
  });
  const last = moments.at(-1);
  const first = moments[0];
  // What only decays is never higher than it is now.
  const ceiling = first ? highOf(first, Z05) : 0;
  const arrival = (depthPa: number) => arrivalOf(moments, depthPa);
  return {
    arrival,
    chanceOf: (depthPa) => arrival(depthPa).reachedBy(LONGEST_S),
    floorPa: last ? estimateOf(last, ceiling) : { estimate: 0, low: 0, high: 0 },
    curve: (nowS, lengthS) => curveOf(moments, nowS, lengthS, ceiling),
  };
}

function arrivalOf(moments: readonly Moment[], depthPa: number): Arrival {
  const depth = Math.log(depthPa);
  let most = 0;
  const chances = moments.map(({ ways }) => {
    const chance = ways.reduce(
      (sum, { log, sigma, weight }) =>
        sum + weight * cumulativeStdNormalProbability((depth - log) / Math.max(sigma, 1e-4)),
      0,
    );
    // Once reached is reached: what a mean that rises again would take back counts all the same.
    most = Math.max(most, chance);
    return most;
  });
  const logs = moments.map(({ afterS }) => Math.log(afterS));
  return {
    reachedBy: (afterS) => interpolate(logs, chances, Math.log(Math.max(afterS, 1e-3))),
    quantileS: (probability) => {
      const at = chances.findIndex((chance) => chance >= probability);
      if (at === -1) return Infinity;
      const [before, here] = [chances[at - 1], chances[at] ?? 1];
      // Within the first half second it is as good as there.
      if (before === undefined) return (FIRST_S * probability) / Math.max(here, 1e-9);
      const share = (probability - before) / (here - before);
      return Math.exp((logs[at - 1] ?? 0) + share * ((logs[at] ?? 0) - (logs[at - 1] ?? 0)));
    },
  };
}

/** Straight between the points of an ascending grid, flat beyond its ends. */
function interpolate(grid: readonly number[], values: readonly number[], at: number): number {
  const after = grid.findIndex((x) => x >= at);
  if (after === -1) return values.at(-1) ?? 0;
  if (after === 0) return values[0] ?? 0;
  const [x0, x1] = [grid[after - 1] ?? 0, grid[after] ?? 1];
  const [y0, y1] = [values[after - 1] ?? 0, values[after] ?? 0];
  return y0 + ((at - x0) / (x1 - x0)) * (y1 - y0);
}

/** Below this chance of a depth there is nothing to say about when. */
const LEAST_CHANCE = 0.02;

/**
 * When the depth is reached, if it is. Half of the chance that it never is counts as the caution of a
 * prior that doesn't know this rig, the other half as delay beyond all bounds: so the upper end is
 * null from one chance in five on.
 */
export function remainingFrom({ quantileS, reachedBy }: Arrival): Remaining | null {
  const chance = reachedBy(LONGEST_S);
  if (chance < LEAST_CHANCE) return null;
  const believed = (1 + chance) / 2;
  const at = (probability: number) => quantileS((probability * chance) / believed);
  const p90S = quantileS(0.9 * believed);
  return { p10S: at(0.1), p50S: at(0.5), p90S: Number.isFinite(p90S) ? p90S : null };
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
