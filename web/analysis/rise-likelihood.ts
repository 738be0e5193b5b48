/**
 * How likely the readings of one hold are for a given inflow, whatever else has risen beside it.
 *
 * What levels off is one of some hundreds of mixtures: none to three time constants of the grid, each
 * with an amount ≥ 0. Given the inflow L and the mixture, everything is linear and normal: the integral
 * over the amounts is that of a normal distribution cut off at zero. One amount has a closed form; for
 * more, each cut is replaced by the normal factor that has the same moments (expectation propagation:
 * Minka, A family of algorithms for approximate Bayesian inference, 2001, chapter 3).
 */
import type { Design } from './rise-design.ts';
import { MOST_AMOUNTS, type Mixture } from './rise-mixtures.ts';
import { hazard, logShareAbove } from './truncated-normal.ts';

/** Where a mixture would have the inflow, its deviation, and ln of the integral over the amounts there. */
export interface FreeLeak {
  readonly at: number;
  readonly sigma: number;
  readonly logWeight: number;
}

/** The replaced cuts may be too large by so much, ln. */
const ROUNDING = 0.5;
/** Sweeps over the cuts: by then the factors hardly change. */
const SWEEPS = 6;
/** Of a pivot, beside the matrix' own entry. */
const LEAST_PIVOT = 1e-12;
const SETTLED = 1e-2;
/** A mean so many deviations above zero is not cut. */
const CERTAIN = 8;

/**
 * Integrates over the amounts of one mixture, at one inflow after another. The results stay in its
 * fields until the next visit.
 */
export class MixtureVisitor {
  /** ln of likelihood times prior of the mixture. */
  logWeight = 0;
  /** Expected amounts, in the mixture's order, and their covariance, row by row. */
  readonly amounts = new Float64Array(MOST_AMOUNTS);
  readonly covariance = new Float64Array(MOST_AMOUNTS * MOST_AMOUNTS);
  endPa = 0;
  endSigmaPa = 0;
  levelledPa = 0;
  levelledSigmaPa = 0;

  /** Of the mixture taken: where it would have the inflow, were its amounts free. */
  free: FreeLeak = { at: 0, sigma: 1, logWeight: 0 };

  readonly #design: Design;
  #mixture: Mixture = { members: [], logPrior: 0 };
  /** Precision of the amounts, were they free. */
  readonly #precision = new Float64Array(MOST_AMOUNTS * MOST_AMOUNTS);
  readonly #pull = new Float64Array(MOST_AMOUNTS);
  /** The normal factors that stand for the cuts: precision and precision times mean. */
  readonly #cutPrecision = new Float64Array(MOST_AMOUNTS);
  readonly #cutPull = new Float64Array(MOST_AMOUNTS);
  /** Each amount by all but its own cut. */
  readonly #freeMean = new Float64Array(MOST_AMOUNTS);
  readonly #freeVariance = new Float64Array(MOST_AMOUNTS);

  constructor(design: Design) {
    this.#design = design;
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
        this.#precision[a * MOST_AMOUNTS + b] = a === b ? value + ridge : value;
      }
      this.#cutPrecision[a] = 0;
      this.#cutPull[a] = 0;
    }
    this.free = this.#freeLeak();
  }

  /** ln of the same integral with the amounts free: the true one is never more. */
  #freeWeightAt(leakPaPerS: number): number {
    const { at, sigma, logWeight } = this.free;
    return logWeight - 0.5 * ((leakPaPerS - at) / sigma) ** 2;
  }

  #freeLeak(): FreeLeak {
    const { gram, size, moments, amountScalePa } = this.#design;
    const { members } = this.#mixture;
    const count = members.length;
    for (let a = 0; a < count; a += 1) {
      this.#pull[a] = (moments[members[a] ?? 0] ?? 0) - 1 / amountScalePa;
    }
    const logDeterminant = this.#invert();
    let curvature = gram[0] ?? 0;
    let slope = moments[0] ?? 0;
    for (let a = 0; a < count; a += 1) {
      const ha = gram[(members[a] ?? 0) * size] ?? 0;
      for (let b = 0; b < count; b += 1) {
        const cov = this.covariance[a * MOST_AMOUNTS + b] ?? 0;
        curvature -= ha * cov * (gram[(members[b] ?? 0) * size] ?? 0);
        slope -= ha * cov * (this.#pull[b] ?? 0);
      }
    }
    curvature = Math.max(curvature, 1e-9 * (gram[0] ?? 0), 1e-300);
    let square = slope * (slope / curvature);
    for (let a = 0; a < count; a += 1) square += (this.#pull[a] ?? 0) * (this.amounts[a] ?? 0);
    return {
      at: slope / curvature,
      sigma: 1 / Math.sqrt(curvature),
      logWeight:
        this.#mixture.logPrior +
        0.5 * (square - this.#design.total + count * LOG_2_PI - (count > 0 ? logDeterminant : 0)),
    };
  }

  visit(leakPaPerS: number): void {
    const { gram, size, moments, amountScalePa, total } = this.#design;
    const { members, logPrior } = this.#mixture;
    const count = members.length;
    for (let a = 0; a < count; a += 1) {
      const i = members[a] ?? 0;
      this.#pull[a] = (moments[i] ?? 0) - 1 / amountScalePa - (gram[i * size] ?? 0) * leakPaPerS;
    }
    const chi2 =
      total - 2 * (moments[0] ?? 0) * leakPaPerS + (gram[0] ?? 0) * leakPaPerS * leakPaPerS;
    this.logWeight = logPrior - 0.5 * chi2 + this.#integrate(count);
    if (!(this.logWeight <= this.#freeWeightAt(leakPaPerS) + ROUNDING)) {
      // Far from anything likely the factors may run away: such a place weighs nothing.
      this.logWeight = -Infinity;
      this.amounts.fill(0);
      this.covariance.fill(0);
      this.#cutPrecision.fill(0);
      this.#cutPull.fill(0);
    }
    this.#see(leakPaPerS, count);
  }

  /** ln of the integral of exp(pull·u − ½·u·precision·u) over u ≥ 0. */
  #integrate(count: number): number {
    if (count === 0) return 0;
    if (count === 1) return this.#integrateOne();
    const { amounts, covariance } = this;
    let logDeterminant = 0;
    this.#invert();
    for (let sweep = 0; ; sweep += 1) {
      let moved = 0;
      for (let a = 0; a < count; a += 1) {
        const variance = Math.max(covariance[a * MOST_AMOUNTS + a] ?? 1, 1e-300);
        const oldPrecision = this.#cutPrecision[a] ?? 0;
        const oldPull = this.#cutPull[a] ?? 0;
        // Without its own cut.
        const free = Math.max(1 / variance - oldPrecision, 1e-12 / variance);
        const freeVariance = 1 / free;
        const freeMean = freeVariance * ((amounts[a] ?? 0) / variance - oldPull);
        const sigma = Math.sqrt(freeVariance);
        const z = freeMean / sigma;
        let precision = 0;
        let pull = 0;
        if (z < CERTAIN) {
          const lift = hazard(z);
          const left = Math.max(1 - lift * (lift + z), 1e-9);
          const newVariance = freeVariance * left;
          precision = Math.max(1 / newVariance - free, 0);
          pull = (freeMean + sigma * lift) / newVariance - freeMean * free;
        }
        this.#freeMean[a] = freeMean;
        this.#freeVariance[a] = freeVariance;
        const change = precision - oldPrecision;
        moved = Math.max(moved, Math.abs(change) * variance, Math.abs(pull - oldPull) * sigma);
        this.#cutPrecision[a] = precision;
        this.#cutPull[a] = pull;
        this.#shift(a, count, change, pull - oldPull);
      }
      if (moved < SETTLED || sweep === SWEEPS - 1) {
        logDeterminant = this.#invert();
        let square = 0;
        for (let a = 0; a < count; a += 1) {
          square += (amounts[a] ?? 0) * ((this.#pull[a] ?? 0) + (this.#cutPull[a] ?? 0));
        }
        return this.#cuts(count) + 0.5 * square + 0.5 * (count * LOG_2_PI - logDeterminant);
      }
    }
  }

  /** ln of what the cuts leave, beyond their normal factors. */
  #cuts(count: number): number {
    let cuts = 0;
    for (let a = 0; a < count; a += 1) {
      const mean = this.#freeMean[a] ?? 0;
      const variance = this.#freeVariance[a] ?? 1;
      const z = mean / Math.sqrt(variance);
      if (z >= CERTAIN) continue;
      const precision = this.#cutPrecision[a] ?? 0;
      const pull = this.#cutPull[a] ?? 0;
      const growth = 1 + precision * variance;
      const square = 2 * mean * pull + pull * pull * variance - mean * mean * precision;
      cuts += logShareAbove(z) + 0.5 * Math.log(growth) - (0.5 * square) / growth;
    }
    return cuts;
  }

  #integrateOne(): number {
    const precision = this.#precision[0] ?? 1;
    const sigma = 1 / Math.sqrt(precision);
    const mean = (this.#pull[0] ?? 0) / precision;
    const z = mean / sigma;
    const lift = z > CERTAIN ? 0 : hazard(z);
    this.amounts[0] = mean + sigma * lift;
    this.covariance[0] = Math.max((1 - lift * (lift + z)) / precision, 0);
    return (
      (z > CERTAIN ? 0 : logShareAbove(z)) +
      0.5 * z * z +
      0.5 * LOG_2_PI -
      0.5 * Math.log(precision)
    );
  }

  /** Covariance and mean from precision and pull, cuts included; returns ln det of the precision. */
  #invert(): number {
    const { amounts, covariance } = this;
    const count = this.#mixture.members.length;
    const p = this.#precision;
    const c = this.#cutPrecision;
    const w = MOST_AMOUNTS;
    // L·D·Lᵀ, unrolled; a pivot is never let below rounding.
    const d0 = (p[0] ?? 1) + (c[0] ?? 0);
    let logDeterminant = count > 0 ? Math.log(d0) : 0;
    if (count === 1) covariance[0] = 1 / d0;
    if (count > 1) {
      const l10 = (p[w] ?? 0) / d0;
      const e = (p[w + 1] ?? 1) + (c[1] ?? 0);
      const d1 = Math.max(e - l10 * (p[w] ?? 0), LEAST_PIVOT * e);
      logDeterminant += Math.log(d1);
      let v11 = 1 / d1;
      let v00 = 1 / d0 + l10 * l10 * v11;
      let v01 = -l10 * v11;
      if (count > 2) {
        const b20 = p[2 * w] ?? 0;
        const l20 = b20 / d0;
        const l21 = ((p[2 * w + 1] ?? 0) - l20 * (p[w] ?? 0)) / d1;
        const g = (p[2 * w + 2] ?? 1) + (c[2] ?? 0);
        const d2 = Math.max(g - l20 * b20 - l21 * l21 * d1, LEAST_PIVOT * g);
        logDeterminant += Math.log(d2);
        const m0 = l10 * l21 - l20;
        const v22 = 1 / d2;
        v00 += m0 * m0 * v22;
        v01 -= m0 * l21 * v22;
        v11 += l21 * l21 * v22;
        covariance[2] = m0 * v22;
        covariance[w + 2] = -l21 * v22;
        covariance[2 * w] = m0 * v22;
        covariance[2 * w + 1] = -l21 * v22;
        covariance[2 * w + 2] = v22;
      }
      covariance[0] = v00;
      covariance[1] = v01;
      covariance[w] = v01;
      covariance[w + 1] = v11;
    }
    for (let i = 0; i < count; i += 1) {
      let sum = 0;
      for (let j = 0; j < count; j += 1) {
        sum += (covariance[i * w + j] ?? 0) * ((this.#pull[j] ?? 0) + (this.#cutPull[j] ?? 0));
      }
      amounts[i] = sum;
    }
    return logDeterminant;
  }

  /** After the cut of one amount has changed. */
  #shift(a: number, count: number, precision: number, pull: number): void {
    const { amounts, covariance } = this;
    const w = MOST_AMOUNTS;
    const variance = covariance[a * w + a] ?? 0;
    const factor = precision / (1 + precision * variance);
    const gain = (pull - precision * (amounts[a] ?? 0)) / (1 + precision * variance);
    column.set(covariance.subarray(a * w, a * w + count));
    for (let i = 0; i < count; i += 1) {
      amounts[i] = (amounts[i] ?? 0) + (column[i] ?? 0) * gain;
      for (let j = 0; j < count; j += 1) {
        covariance[i * w + j] =
          (covariance[i * w + j] ?? 0) - factor * (column[i] ?? 0) * (column[j] ?? 0);
      }
    }
  }

  /** What the amounts mean for the end of the hold. */
  #see(leakPaPerS: number, count: number): void {
    const { endOffsetPa, endPerAmount, endVariance, levelledPerAmount } = this.#design;
    const { members } = this.#mixture;
    let endPa = endOffsetPa + (endPerAmount[0] ?? 0) * leakPaPerS;
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
        const cov = this.covariance[a * MOST_AMOUNTS + b] ?? 0;
        variance += cov * (endPerAmount[i] ?? 0) * (endPerAmount[j] ?? 0);
        levelledVariance += cov * (levelledPerAmount[i] ?? 0) * (levelledPerAmount[j] ?? 0);
      }
    }
    this.endPa = endPa;
    this.endSigmaPa = Math.sqrt(Math.max(variance, 0));
    this.levelledPa = levelledPa;
    this.levelledSigmaPa = Math.sqrt(Math.max(levelledVariance, 0));
  }
}

const LOG_2_PI = Math.log(2 * Math.PI);
const column = new Float64Array(MOST_AMOUNTS);
