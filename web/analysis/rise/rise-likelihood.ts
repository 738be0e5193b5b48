/**
 * How likely the readings of one hold are for a given inflow, whatever else has risen beside it.
 *
 * What levels off is one of some hundreds of mixtures: none to three time constants of the grid, each
 * with an amount ≥ 0. Given the inflow L and the mixture, everything is linear and normal: the integral
 * over the amounts is that of a normal distribution cut off at zero.
 */
import { CutNormal } from './cut-normal.ts';
import type { Design } from './rise-design.ts';
import { MOST_AMOUNTS, type Mixture } from './rise-mixtures.ts';

/** Where a mixture would have the inflow, its deviation, and ln of the integral over the amounts there. */
interface FreeLeak {
  at: number;
  sigma: number;
  logWeight: number;
}

/** The replaced cuts may be too large by so much, ln. */
const ROUNDING = 0.5;

/**
 * Integrates over the amounts of one mixture, at one inflow after another. The results stay in its
 * fields until the next visit.
 */
export class MixtureVisitor {
  /** ln of likelihood times prior of the mixture. */
  logWeight = 0;
  /** Expected amounts, in the mixture's order. */
  readonly amounts: Float64Array;

  /** Of the mixture taken: where it would have the inflow, were its amounts free. */
  readonly free: FreeLeak = { at: 0, sigma: 1, logWeight: 0 };

  readonly #design: Design;
  #mixture: Mixture = { members: [], logPrior: 0 };
  #leakPaPerS = 0;
  readonly #normal = new CutNormal();

  constructor(design: Design) {
    this.#design = design;
    this.amounts = this.#normal.means;
  }

  take(mixture: Mixture): void {
    const { gram, size, amountScalePa } = this.#design;
    const { members } = mixture;
    this.#mixture = mixture;
    // Ten times what is to be expected is not to be expected: also keeps parallel columns apart.
    const ridge = 1 / (10 * amountScalePa) ** 2;
    for (let a = 0; a < members.length; a += 1) {
      for (let b = 0; b < members.length; b += 1) {
        const value = gram[(members[a] ?? 0) * size + (members[b] ?? 0)] ?? 0;
        this.#normal.precision[a * MOST_AMOUNTS + b] = a === b ? value + ridge : value;
      }
    }
    this.#normal.count = members.length;
    this.#normal.uncut();
    this.#freeLeak();
  }

  /** ln of the same integral with the amounts free: the true one is never more. */
  mostAt(leakPaPerS: number): number {
    const { at, sigma, logWeight } = this.free;
    return logWeight - 0.5 * ((leakPaPerS - at) / sigma) ** 2;
  }

  #freeLeak(): void {
    const { gram, size, moments, amountScalePa } = this.#design;
    const { members } = this.#mixture;
    const count = members.length;
    for (let a = 0; a < count; a += 1) {
      this.#normal.pull[a] = (moments[members[a] ?? 0] ?? 0) - 1 / amountScalePa;
    }
    const logDeterminant = this.#normal.invert();
    let curvature = gram[0] ?? 0;
    let slope = moments[0] ?? 0;
    for (let a = 0; a < count; a += 1) {
      const ha = gram[(members[a] ?? 0) * size] ?? 0;
      for (let b = 0; b < count; b += 1) {
        const cov = this.#normal.covariance[a * MOST_AMOUNTS + b] ?? 0;
        curvature -= ha * cov * (gram[(members[b] ?? 0) * size] ?? 0);
        slope -= ha * cov * (this.#normal.pull[b] ?? 0);
      }
    }
    curvature = Math.max(curvature, 1e-9 * (gram[0] ?? 0), 1e-300);
    let square = slope * (slope / curvature);
    for (let a = 0; a < count; a += 1)
      square += (this.#normal.pull[a] ?? 0) * (this.amounts[a] ?? 0);
    this.free.at = slope / curvature;
    this.free.sigma = 1 / Math.sqrt(curvature);
    this.free.logWeight =
      this.#mixture.logPrior +
      0.5 * (square - this.#design.total + count * LOG_2_PI - (count > 0 ? logDeterminant : 0));
  }

  visit(leakPaPerS: number): void {
    const { gram, size, moments, amountScalePa, total } = this.#design;
    const { members, logPrior } = this.#mixture;
    const count = members.length;
    for (let a = 0; a < count; a += 1) {
      const i = members[a] ?? 0;
      this.#normal.pull[a] =
        (moments[i] ?? 0) - 1 / amountScalePa - (gram[i * size] ?? 0) * leakPaPerS;
    }
    const chi2 =
      total - 2 * (moments[0] ?? 0) * leakPaPerS + (gram[0] ?? 0) * leakPaPerS * leakPaPerS;
    this.logWeight = logPrior - 0.5 * chi2 + this.#normal.integrate();
    if (!(this.logWeight <= this.mostAt(leakPaPerS) + ROUNDING)) {
      // Far from anything likely the factors may run away: such a place weighs nothing.
      this.logWeight = -Infinity;
      this.#normal.clear();
    }
    this.#leakPaPerS = leakPaPerS;
  }

  /**
   * What the amounts of the last visit mean for the end of the hold.
   * @param into gets, from `at` on, where it ends and what has levelled off by then, each with its deviation
   */
  lookAhead(into: Float64Array, at: number): void {
    const { endOffsetPa, endPerAmount, endVariance, levelledPerAmount } = this.#design;
    const { members } = this.#mixture;
    const count = members.length;
    let endPa = endOffsetPa + (endPerAmount[0] ?? 0) * this.#leakPaPerS;
    let levelledPa = 0;
    let variance = endVariance;
    let levelledVariance = 0;
    for (let a = 0; a < count; a += 1) {
      const i = members[a] ?? 0;
      const amount = this.amounts[a] ?? 0;
      endPa += (endPerAmount[i] ?? 0) * amount;
      levelledPa += (levelledPerAmount[i] ?? 0) * amount;
      for (let b = 0; b < count; b += 1) {
        const j = members[b] ?? 0;
        const cov = this.#normal.covariance[a * MOST_AMOUNTS + b] ?? 0;
        variance += cov * (endPerAmount[i] ?? 0) * (endPerAmount[j] ?? 0);
        levelledVariance += cov * (levelledPerAmount[i] ?? 0) * (levelledPerAmount[j] ?? 0);
      }
    }
    into[at] = endPa;
    into[at + 1] = Math.sqrt(Math.max(variance, 0));
    into[at + 2] = levelledPa;
    into[at + 3] = Math.sqrt(Math.max(levelledVariance, 0));
  }
}

const LOG_2_PI = Math.log(2 * Math.PI);
