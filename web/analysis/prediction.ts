/** What the competing models say of the time to a depth, each weighed by its latest predictions. */
import { cumulativeStdNormalProbability } from 'simple-statistics';
import type { Estimate, Remaining } from './conclusions.ts';
import {
  depthWithin,
  fitModel,
  MODEL_FORMS,
  pressuresAfter,
  timeBetweenS,
  type PullDownModel,
} from './pull-down-models.ts';
import type { PullDownPoint } from './pull-down-points.ts';

/** A model fitted up to now, and what its twin, fitted up to a while ago, is worth. */
export interface Candidate {
  readonly model: PullDownModel;
  /** Adds up to 1 over all candidates. */
  readonly weight: number;
  /** Relative uncertainty of its rate: by how much the twin misjudged the fall since. */
  readonly rateError: number;
  /** How long the twin was tried for, s. */
  readonly triedS: number;
}

/** Windows as parts of all there is since the start. */
const WINDOWS = [1, 0.6, 0.4];
/** The latest part of all there is, predicted from what came before. */
const HELD_BACK = 0.15;
/** Fewer points than this are no window. */
const LEAST_POINTS = 8;
/** Shorter windows say more about noise than about the curve. */
const LEAST_WINDOW_S = 20;
/** Nobody predicts better than this, in ln P: keeps one lucky model from taking all the weight. */
const LEAST_ERROR = 0.004;
/** A candidate with less than this part of the best one's weight moves nothing, and is dropped. */
const LEAST_SHARE = 1e-3;
/** What no fit knows: the rate that will change by itself. Set on invented curves, see the tests. */
const UNKNOWN_SPREAD = 0.12;
/** How much wider, for each factor e by which the prediction reaches farther than the trial. */
const REACH_SPREAD = 0.25;

/** @returns none where there are too few points */
export function candidatesFor(points: readonly PullDownPoint[], nowS: number): Candidate[] {
  const firstS = points[0]?.elapsedS ?? nowS;
  const cutS = nowS - HELD_BACK * (nowS - firstS);
  const heldBack = points.filter(({ elapsedS }) => elapsedS > cutS);
  const candidates: (Candidate & { readonly score: number })[] = [];
  for (const part of WINDOWS) {
    const fromS = nowS - part * (nowS - firstS);
    if (nowS - fromS < LEAST_WINDOW_S && part !== 1) continue;
    const window = points.filter(({ elapsedS }) => elapsedS >= fromS);
    const before = window.filter(({ elapsedS }) => elapsedS <= cutS);
    if (before.length < LEAST_POINTS || heldBack.length < 3) continue;
    for (const form of MODEL_FORMS) {
      const twin = fitModel(before, form);
      const model = fitModel(window, form);
      if (!twin || !model) continue;
      const { error, fall } = trial(twin, before.at(-1)?.elapsedS ?? cutS, heldBack);
      candidates.push({
        model,
        score: form.prior / (error ** 2 + LEAST_ERROR ** 2) ** 2,
        weight: 0,
        rateError: Math.min((error + LEAST_ERROR / 2) / Math.max(fall, 1e-4), 3),
        triedS: nowS - cutS,
      });
    }
  }
  const best = candidates.reduce((most, { score }) => Math.max(most, score), 0);
  const heard = candidates.filter(({ score }) => score >= LEAST_SHARE * best);
  const total = heard.reduce((sum, { score }) => sum + score, 0);
  return heard.map(({ score, ...candidate }) => ({ ...candidate, weight: score / total }));
}

/** How far a twin was off over what it had not seen (root mean square, ln P), and how far it fell. */
function trial(twin: PullDownModel, cutS: number, heldBack: readonly PullDownPoint[]) {
  const timesS = heldBack.map(({ elapsedS }) => elapsedS - cutS);
  const predictedPa = pressuresAfter(twin, twin.lastPa, timesS);
  const squares = heldBack.map(({ pressurePa }, i) => {
    const off = Math.log((predictedPa[i] ?? 0) / pressurePa);
    return Number.isFinite(off) ? off * off : 100;
  });
  const error = Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
  const fall = Math.abs(Math.log(twin.lastPa / (heldBack.at(-1)?.pressurePa ?? twin.lastPa)));
  return { error, fall };
}

/** The chance that a depth is reached, and when, as a mixture over the candidates. */
export interface Arrival {
  /** Weight of the candidates whose floor keeps them from ever reaching it. */
  readonly neverWeight: number;
  /** The time by which it is reached with probability `p`, s; infinite where p is never reached. */
  readonly quantileS: (p: number) => number;
}

/** Longer than eight hours counts as never. */
export const LONGEST_S = 8 * 3600;

/** @param detours what might still come between: weight, and by how much it delays */
export function arrivalAt(
  candidates: readonly Candidate[],
  depthPa: number,
  detours: readonly { readonly weight: number; readonly delayS: number; readonly spread: number }[],
): Arrival {
  const parts = candidates.flatMap(({ model, weight, rateError, triedS }) => {
    const timeS = timeBetweenS(model, model.lastPa, depthPa);
    const reach = Math.log(1 + timeS / triedS);
    const spread = Math.hypot(UNKNOWN_SPREAD, rateError) * (1 + REACH_SPREAD * reach);
    return timeS > LONGEST_S ? [] : [{ weight, log: Math.log(Math.max(timeS, 0.5)), spread }];
  });
  const arriving = parts.reduce((sum, { weight }) => sum + weight, 0);
  const direct = detours.reduce((rest, { weight }) => rest - weight, 1);
  const all = [
    ...parts.map((part) => ({ ...part, weight: part.weight * direct })),
    ...detours.flatMap(({ weight, delayS, spread }) =>
      parts.map((part) => ({
        weight: part.weight * weight,
        log: Math.log(Math.exp(part.log) + delayS),
        spread: Math.hypot(part.spread, spread),
      })),
    ),
  ];
  const reachedBy = (log: number) =>
    all.reduce(
      (sum, part) =>
        sum + part.weight * cumulativeStdNormalProbability((log - part.log) / part.spread),
      0,
    );
  return {
    neverWeight: candidates.length === 0 ? 0 : 1 - arriving,
    quantileS: (p) => {
      if (arriving <= p) return Infinity;
      let low = Math.log(0.01);
      let high = Math.log(100 * LONGEST_S);
      if (reachedBy(high) <= p) return Infinity;
      for (let step = 0; step < 40; step += 1) {
        const middle = (low + high) / 2;
        if (reachedBy(middle) > p) high = middle;
        else low = middle;
      }
      return Math.exp(high);
    },
  };
}

/** Quantiles as remaining time, or null where not even the middle is bounded. */
export function remainingFrom({ quantileS }: Arrival): Remaining | null {
  const [p10S, p50S, p90S] = [quantileS(0.1), quantileS(0.5), quantileS(0.9)];
  if (!Number.isFinite(p50S)) return null;
  return { p10S, p50S, p90S: Number.isFinite(p90S) && p90S <= LONGEST_S ? p90S : null };
}

/** How deep the candidates get within eight hours: weighted quantiles, or null without any. */
export function floorFrom(candidates: readonly Candidate[]): Estimate | null {
  const floors = candidates
    .map(({ model, weight }) => ({ weight, floor: depthWithin(model, LONGEST_S) }))
    .sort((a, b) => a.floor - b.floor);
  const total = floors.reduce((sum, { weight }) => sum + weight, 0);
  if (total <= 0) return null;
  const at = (p: number) => {
    let sum = 0;
    for (const { weight, floor } of floors) {
      sum += weight / total;
      if (sum >= p) return floor;
    }
    return floors.at(-1)?.floor ?? 0;
  };
  return { estimate: at(0.5), low: at(0.05), high: at(0.95) };
}
