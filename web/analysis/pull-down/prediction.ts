/**
 * The pull-down to come: spectra of decays fitted from several moments on, and falls that quicken, each
 * weighed by how well it, fitted earlier, predicted the latest pressures.
 */
import { median } from '../fitting/median.ts';
import { SIGMA_PER_MAD } from '../readings/samples.ts';
import { fitDecay } from './decay-fit.ts';
import { decayData, logPressureAt, type DecayData, type FloorPrior } from './decay-spectrum.ts';
import {
  DRYING_POWERS,
  dryingAt,
  dryingTrials,
  fitDrying,
  type DryingTrials,
} from './drying-fall.ts';
import { believed, tryOut, type At } from './foretold.ts';
import type { PullDownPoint } from './pull-down-points.ts';

/** One way in which the pressure may go on. */
export interface Way {
  /** Adds up to 1 over all ways. */
  readonly weight: number;
  /** ln P at a time since the first of its pressures. */
  readonly at: At;
  /** From the first of its pressures to the present, s. */
  readonly pastS: number;
}

/** Where the records begin, as parts of all there is: what came earlier may follow other laws. */
const BEGINNINGS = [0, 0.25, 0.45, 0.65, 0.8];
/**
 * What ruled when the pressure was so many times as high is over. A grid of decays follows one that lies
 * between two of it over three of its time constants or so, and no further: gas that a wide gauge saw
 * go all the way from the air's pressure would bend the fit at its end.
 */
const TIMES_PRESENT = 30;
/**
 * What lies closer together than this part of all there is tells of noise and not of what is to come;
 * merged it weighs less against what is older, and the noise that the record shows is the slow one.
 */
const MERGED_SHARE = 1 / 80;
/** How much of all there is is kept back to be predicted. */
const KEPT_BACK = [0.3, 0.12];
/** Fewer points than this are no record. */
const LEAST_POINTS = 10;
/** The logarithm of the density of what could not be tried: as if it had missed all. */
const UNTRIED = -4;
/** A trial looks at a few moments of a few; what it says counts so many times. */
const TRIAL_WEIGHT = 3;
/** One fall in ten quickens, by one of the powers: a setting of ours. */
const LOG_PRIOR_DRYING = Math.log(0.1 / DRYING_POWERS.length);
/** A way with less than this part of the best one's weight moves nothing, and is dropped. */
const LEAST_SHARE = 1e-3;

/** No thermal gauge holds still to better than a third of a per cent over minutes. From memory. */
const LEAST_SIGMA = 0.003;
/** Neighbouring points err together (the sensor's lag, the room's temperature): a setting of ours. */
const TOGETHER = 1.1;
/** Of a difference with the straight line between both neighbours: √(1 + ¼ + ¼). */
const SECOND_DIFFERENCE = 1.22;

/**
 * A floor is expected at a fifth of the target, within a factor e^1.3 or so: one pump in nine
 * doesn't get there. A setting of ours; with a quarter the end was expected late more often than early.
 */
const FLOOR_SHARE = 0.2;
const FLOOR_SPREAD = 1.3;

/**
 * @param seen in order of time
 * @param nowS the present; the latest point may be a while ago
 * @returns none where there are too few points
 */
export function waysFrom(seen: readonly PullDownPoint[], targetPa: number, nowS: number): Way[] {
  const points = merged(ofLate(seen));
  const firstS = points[0]?.elapsedS ?? 0;
  const lastS = points.at(-1)?.elapsedS ?? 0;
  const floor = { log: Math.log(FLOOR_SHARE * targetPa), spread: FLOOR_SPREAD };
  const sigma = TOGETHER * Math.max(scatterOf(points), LEAST_SIGMA);
  const ways: { way: Omit<Way, 'weight'>; score: number }[] = [];
  for (const part of BEGINNINGS) {
    const beginS = firstS + part * (lastS - firstS);
    const record = points.filter(({ elapsedS }) => elapsedS >= beginS);
    if (record.length < (part === 0 ? LEAST_POINTS : LEAST_POINTS + 4)) continue;
    const data = decayData(record, sigma);
    const cuts = KEPT_BACK.map((kept) => firstIndexAt(record, lastS - kept * (lastS - firstS)));
    const pastS = nowS - (record[0]?.elapsedS ?? nowS);
    const drying = dryingLaws(data, floor);
    for (const law of [decaysOf(data, floor), ...drying]) {
      if (law === null) continue;
      const tried = tryOut(data, law.earlier, cuts);
      // What is seldom so has to have foretold something.
      if (tried === null && law.logPrior < 0) continue;
      const score = law.logPrior + TRIAL_WEIGHT * (tried?.logDensity ?? UNTRIED);
      ways.push({ way: { at: believed(law.at, tried, pastS), pastS }, score });
    }
  }
  const best = ways.reduce((most, { score }) => Math.max(most, score), -Infinity);
  const likely = ways.map(({ way, score }) => ({ way, share: Math.exp(score - best) }));
  const heard = likely.filter(({ share }) => share >= LEAST_SHARE);
  const total = heard.reduce((sum, { share }) => sum + share, 0);
  return heard.map(({ way, share }) => ({ ...way, weight: share / total }));
}

/** Since the pressure last stood more than so many times above the present. */
function ofLate(points: readonly PullDownPoint[]): readonly PullDownPoint[] {
  const highestPa = TIMES_PRESENT * (points.at(-1)?.pressurePa ?? 0);
  return points.slice(points.findLastIndex(({ pressurePa }) => pressurePa > highestPa) + 1);
}

/** A law that the whole record fits, and the same fitted to its first so many pressures. */
interface Law {
  readonly logPrior: number;
  readonly at: At;
  readonly earlier: (count: number) => At | null;
}

function decaysOf(data: DecayData, floor: FloorPrior): Law | null {
  const fit = fitDecay(data, data.logs.length, floor);
  if (fit === null) return null;
  const earlier = (count: number) => {
    const found = fitDecay(data, count, floor, fit.logAmplitudes);
    return found && ((timeS: number) => logPressureAt(found, timeS));
  };
  return { logPrior: 0, at: (timeS) => logPressureAt(fit, timeS), earlier };
}

/** One for each power, where it fits; all of them look at the same ends. */
function dryingLaws(data: DecayData, floor: FloorPrior): (Law | null)[] {
  const known = new Map<number, DryingTrials | null>();
  const trialsOf = (count: number) => {
    const trials = known.get(count) ?? dryingTrials(data, count);
    known.set(count, trials);
    return trials;
  };
  return DRYING_POWERS.map((power) => {
    const earlier = (count: number) => {
      const trials = trialsOf(count);
      const found = trials && fitDrying(data, trials, floor, power);
      return found && ((timeS: number) => dryingAt(found, timeS));
    };
    const at = earlier(data.logs.length);
    return at && { logPrior: LOG_PRIOR_DRYING, at, earlier };
  });
}

/** Neighbours that are nearer than one can tell apart over the whole length become one. */
function merged(points: readonly PullDownPoint[]): PullDownPoint[] {
  const lengthS = (points.at(-1)?.elapsedS ?? 0) - (points[0]?.elapsedS ?? 0);
  const together: PullDownPoint[][] = [];
  for (const point of points.toReversed()) {
    const group = together.at(-1);
    const newestS = group?.[0]?.elapsedS ?? Infinity;
    if (group && newestS - point.elapsedS <= MERGED_SHARE * lengthS) group.push(point);
    else together.push([point]);
  }
  return together.reverse().map((group) => ({
    elapsedS: mean(group.map(({ elapsedS }) => elapsedS)),
    pressurePa: Math.exp(mean(group.map(({ pressurePa }) => Math.log(pressurePa)))),
  }));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function firstIndexAt(points: readonly PullDownPoint[], fromS: number): number {
  const index = points.findIndex(({ elapsedS }) => elapsedS >= fromS);
  return index === -1 ? points.length : index;
}

/** Scatter of ln P about the line between its neighbours, over the latter half. */
function scatterOf(points: readonly PullDownPoint[]): number {
  const sizes: number[] = [];
  for (let i = Math.max(points.length >> 1, 1); i + 1 < points.length; i += 1) {
    const [before, here, after] = [points[i - 1], points[i], points[i + 1]];
    if (!before || !here || !after) continue;
    const share = (here.elapsedS - before.elapsedS) / (after.elapsedS - before.elapsedS);
    const line = (1 - share) * Math.log(before.pressurePa) + share * Math.log(after.pressurePa);
    sizes.push(Math.abs(Math.log(here.pressurePa) - line));
  }
  return sizes.length === 0 ? 0 : (SIGMA_PER_MAD * median(sizes)) / SECOND_DIFFERENCE;
}
