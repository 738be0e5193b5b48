/** How often a trainee's calls are right, and how well their sureness fits. */
import type { RehearsalResult } from '../../../protocol/api.ts';
import type { Estimate } from '../conclusions.ts';

/** Of fewer results nothing can be said: a setting of ours. */
export const FEWEST_RESULTS = 5;
/** Each end of a 90 % interval may be wrong one time in twenty. */
const MISS = 0.05;
const HALVINGS = 50;

export interface CallScore {
  readonly count: number;
  /** Share of calls that named the cause exactly. */
  readonly right: Estimate;
  /** Mean sureness, as a share: above `right` it is too high, below too low. */
  readonly sureness: number;
  /**
   * Mean of (p − o)², p the sureness, o = 1 where the call was right, else 0: 0 is best, 0.25 is what
   * saying 50 % each time comes to, 1 is certain and wrong each time. G. W. Brier, 'Verification of
   * forecasts expressed in terms of probability', Monthly Weather Review 78 (1950), 1–3; his P
   * adds up the squares of both outcomes, which is twice this.
   */
  readonly brier: Estimate;
}

/** @returns null where there are too few results to say anything */
export function scoreCalls(
  results: readonly Pick<RehearsalResult, 'cause' | 'truth' | 'surePercent'>[],
): CallScore | null {
  if (results.length < FEWEST_RESULTS) return null;
  const outcomes = results.map(({ cause, truth }) => (cause === truth ? 1 : 0));
  const sureness = results.map(({ surePercent }) => surePercent / 100);
  const squares = outcomes.map((outcome, i) => ((sureness[i] ?? 0) - outcome) ** 2);
  return {
    count: results.length,
    right: boundedMean(outcomes),
    sureness: mean(sureness),
    brier: boundedMean(squares),
  };
}

/**
 * Mean of independent numbers in [0, 1], with an interval that holds the true one at least nine
 * times out of ten, however they are distributed: that n of them come out at m̂, or further from the
 * true mean m on that side, has a chance of at most exp(−n·KL(m̂ ‖ m)). W. Hoeffding, 'Probability inequalities for sums of bounded random variables', JASA 58 (1963),
 * theorem 1.
 */
function boundedMean(values: readonly number[]): Estimate {
  const estimate = mean(values);
  const limit = -Math.log(MISS) / values.length;
  return {
    estimate,
    low: furthest(estimate, 0, limit),
    high: furthest(estimate, 1, limit),
  };
}

/** Between the observed mean and an end of the scale: where the divergence comes to its limit. */
function furthest(observed: number, end: number, limit: number): number {
  let inside = observed;
  let outside = end;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (inside + outside) / 2;
    if (divergence(observed, middle) <= limit) inside = middle;
    else outside = middle;
  }
  return inside;
}

/** KL(a ‖ b) = a·ln(a/b) + (1 − a)·ln((1 − a)/(1 − b)). */
function divergence(a: number, b: number): number {
  return part(a, b) + part(1 - a, 1 - b);
}

function part(a: number, b: number): number {
  return a === 0 ? 0 : a * Math.log(a / b);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
