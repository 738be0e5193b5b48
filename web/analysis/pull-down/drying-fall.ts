/**
 * A fall that quickens: something that gave off gas is being used up.
 *
 * No sum of decays does that, since the logarithm of one bends upward only (Bernstein's theorem). Water
 * that dries up does, P(t) = c·(t_dry − t)ⁿ: what keeps its shape and gives off by its surface loses size
 * evenly, and its surface goes as the square of the time left; a film that shrinks from its rim goes
 * evenly; and where heat limits what boils off, the fall grows steeper still. What stands below shows once
 * it is gone, and is no better known than any floor.
 */
import type { DecayData, FloorPrior, LogPressure } from './decay-spectrum.ts';

/** Powers of the time left, each a law of its own. */
export const DRYING_POWERS = [0.5, 1, 2] as const;
/** Ends that are tried: from a fortieth of the record on to twenty times it, each a sixth later than the last. */
const NEAREST_SHARE = 1 / 40;
const STEP = 1.18;
const PLACES = 41;

export interface DryingFit {
  readonly power: number;
  /** ln of the pressure that is drying up, at the last of the pressures fitted. */
  readonly log: number;
  readonly lastS: number;
  /** From then on until nothing is left of it, s. */
  readonly leftS: number;
  /** Variances of `log` and of ln `leftS`, and their covariance. */
  readonly variances: readonly [number, number, number];
  readonly floor: FloorPrior;
}

/** How the pressures and the time left go together, for each end that is tried. */
export interface DryingTrials {
  /** How many of the pressures, from the first on. */
  readonly count: number;
  readonly trials: readonly DryingTrial[];
}

/** Sums over the pressures about their means, y = ln P, l = ln((t_dry − t)/left): of any power the rest follows. */
interface DryingTrial {
  readonly meanY: number;
  readonly meanL: number;
  readonly squareY: number;
  readonly squareL: number;
  readonly product: number;
}

/**
 * Looks once at all ends, for laws of any power.
 * @param count how many of the pressures, from the first on
 * @returns null where they are of one moment
 */
export function dryingTrials(data: DecayData, count: number): DryingTrials | null {
  const lengthS = lengthOf(data, count);
  if (!(lengthS > 0)) return null;
  const trials: DryingTrial[] = [];
  for (let place = 0; place < PLACES; place += 1) {
    trials.push(tried(leftAt(lengthS, place), data, count));
  }
  return { count, trials };
}

/**
 * @returns null where no end is near enough for it, or where it is over; whether it is any good, trials tell
 */
export function fitDrying(
  data: DecayData,
  { count, trials }: DryingTrials,
  floor: FloorPrior,
  power: number,
): DryingFit | null {
  const { timesS, sigma } = data;
  const squares = trials.map((trial) => squareOf(trial, power));
  const lowest = squares.indexOf(Math.min(...squares));
  // At the far end of the grid it is a plain decay, at the near end no law of this kind.
  if (lowest <= 0 || lowest === PLACES - 1) return null;
  const lastS = timesS[count - 1] ?? 0;
  const leftS = leftAt(lengthOf(data, count), lowest + vertexOf(squares, lowest));
  const best = tried(leftS, data, count);
  const freedom = Math.max(count - 2, 3);
  const variance = sigma ** 2 * Math.max(squareOf(best, power) / (sigma ** 2 * freedom), 1);
  const slopes = timesS.subarray(0, count).map((timeS) => power * slopeAt(leftS, timeS - lastS));
  const log = best.meanY - power * best.meanL;
  return { power, log, lastS, leftS, variances: variancesOf(slopes, variance), floor };
}

function lengthOf({ timesS }: DecayData, count: number): number {
  return (timesS[count - 1] ?? 0) - (timesS[0] ?? 0);
}

/** From the last pressure on, s. */
function leftAt(lengthS: number, place: number): number {
  return NEAREST_SHARE * lengthS * STEP ** place;
}

/**
 * Of both parameters, by linearisation: ∂ ln P / ∂ log is 1.
 * @param slopes ∂ ln P / ∂ ln left at each pressure
 */
function variancesOf(slopes: Float64Array, variance: number): readonly [number, number, number] {
  const count = slopes.length;
  const sum = slopes.reduce((all, slope) => all + slope, 0);
  const squares = slopes.reduce((all, slope) => all + slope * slope, 0);
  const determinant = Math.max(count * squares - sum * sum, 1e-12);
  return [
    (variance * squares) / determinant,
    (variance * count) / determinant,
    (-variance * sum) / determinant,
  ];
}

/** Where between its neighbours the parabola through the three is lowest, in places. */
function vertexOf(squares: readonly number[], place: number): number {
  const [before = 0, here = 0, after = 0] = squares.slice(place - 1, place + 2);
  const bend = before - 2 * here + after;
  return bend > 0 ? (before - after) / (2 * bend) : 0;
}

/** ∂ ln(1 − t/left) / ∂ ln left, t since the last pressure. */
function slopeAt(leftS: number, sinceLastS: number): number {
  return leftS / (leftS - sinceLastS) - 1;
}

function tried(leftS: number, { timesS, logs }: DecayData, count: number): DryingTrial {
  const lastS = timesS[count - 1] ?? 0;
  // About the last of them: sums of squares of the logarithms themselves would lose digits.
  const about = logs[count - 1] ?? 0;
  let [sumY, sumL, squareY, squareL, product] = [0, 0, 0, 0, 0];
  for (let i = 0; i < count; i += 1) {
    const y = (logs[i] ?? 0) - about;
    const l = Math.log1p((lastS - (timesS[i] ?? 0)) / leftS);
    sumY += y;
    sumL += l;
    squareY += y * y;
    squareL += l * l;
    product += y * l;
  }
  return {
    meanY: about + sumY / count,
    meanL: sumL / count,
    squareY: squareY - (sumY * sumY) / count,
    squareL: squareL - (sumL * sumL) / count,
    product: product - (sumY * sumL) / count,
  };
}

/** What is left of the squares: Σ (y − n·l − mean)². */
function squareOf({ squareY, squareL, product }: DryingTrial, power: number): number {
  return Math.max(squareY - power * (2 * product - power * squareL), 0);
}

/** Below this part of what was left its linearisation says nothing. */
const LEAST_LEFT = 1e-3;

/** ln P at a time since the first of the pressures. */
export function dryingAt(fit: DryingFit, timeS: number): LogPressure {
  const { power, log, lastS, leftS, variances, floor } = fit;
  const [ofLog, ofLeft, ofBoth] = variances;
  const left = Math.max(1 - (timeS - lastS) / leftS, LEAST_LEFT);
  const dries = log + power * Math.log(left);
  const slope = power * (1 / left - 1);
  const pressure = Math.exp(dries) + Math.exp(floor.log);
  const share = Math.exp(dries) / pressure;
  const ofFit = ofLog + slope * (slope * ofLeft + 2 * ofBoth);
  const sigma = Math.hypot(share * Math.sqrt(Math.max(ofFit, 0)), (1 - share) * floor.spread);
  return { log: Math.log(pressure), sigma };
}
