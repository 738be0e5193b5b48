/**
 * The integral of a normal distribution of a few amounts, cut off at zero.
 *
 * One amount has a closed form; for more, each cut is replaced by the normal factor that has the same
 * moments (expectation propagation: Minka, A family of algorithms for approximate Bayesian inference,
 * 2001, chapter 3).
 */
import { CutAtZero } from '../fitting/truncated-normal.ts';
import { MOST_AMOUNTS } from './rise-mixtures.ts';

/** Sweeps over the cuts: by then the factors hardly change. */
const SWEEPS = 6;
const SETTLED = 1e-2;
/** Of a pivot, beside the matrix' own entry. */
const LEAST_PIVOT = 1e-12;
/** A mean so many deviations above zero is not cut. */
const CERTAIN = 8;

export class CutNormal {
  /** How many amounts there are. */
  count = 0;
  /** Precision of the amounts, were they free, row by row; and precision times mean. */
  readonly precision = new Float64Array(MOST_AMOUNTS * MOST_AMOUNTS);
  readonly pull = new Float64Array(MOST_AMOUNTS);
  /** Of the amounts, cut: what they are expected to be, and their covariance, row by row. */
  readonly means = new Float64Array(MOST_AMOUNTS);
  readonly covariance = new Float64Array(MOST_AMOUNTS * MOST_AMOUNTS);
  /** The normal factors that stand for the cuts: precision and precision times mean. */
  readonly #cutPrecision = new Float64Array(MOST_AMOUNTS);
  readonly #cutPull = new Float64Array(MOST_AMOUNTS);
  /** Each amount by all but its own cut. */
  readonly #freeMean = new Float64Array(MOST_AMOUNTS);
  readonly #freeVariance = new Float64Array(MOST_AMOUNTS);
  readonly #cuts = Array.from({ length: MOST_AMOUNTS }, () => new CutAtZero());
  /** Whether `covariance` is that of the precision and the cuts as they are. */
  #isInverted = false;

  /** Free amounts, at first: the cuts of the integral before are where the next one begins. */
  uncut(): void {
    this.#cutPrecision.fill(0);
    this.#cutPull.fill(0);
    this.#isInverted = false;
  }

  /** Nothing is known of the amounts. */
  clear(): void {
    this.means.fill(0);
    this.covariance.fill(0);
    this.uncut();
  }

  /** ln of the integral of exp(pull·u − ½·u·precision·u) over u ≥ 0. */
  integrate(): number {
    const { count } = this;
    if (count === 0) return 0;
    if (count === 1) return this.#integrateOne();
    const { means, covariance } = this;
    const cutPrecision = this.#cutPrecision;
    const cutPull = this.#cutPull;
    // Another pull alone leaves the covariance of the last integral as it was.
    if (this.#isInverted) this.#centre();
    else this.invert();
    for (let sweep = 0; ; sweep += 1) {
      let moved = 0;
      for (let a = 0; a < count; a += 1) {
        const variance = Math.max(covariance[a * MOST_AMOUNTS + a] ?? 1, 1e-300);
        const oldPrecision = cutPrecision[a] ?? 0;
        const oldPull = cutPull[a] ?? 0;
        const cut = this.#cuts[a];
        if (!cut) break;
        // Without its own cut.
        const free = Math.max(1 / variance - oldPrecision, 1e-12 / variance);
        const freeVariance = 1 / free;
        const freeMean = freeVariance * ((means[a] ?? 0) / variance - oldPull);
        const sigma = Math.sqrt(freeVariance);
        const z = freeMean / sigma;
        let precision = 0;
        let pull = 0;
        if (z < CERTAIN) {
          cut.take(z);
          const { lift } = cut;
          const left = Math.max(1 - lift * (lift + z), 1e-9);
          const newVariance = freeVariance * left;
          precision = Math.max(1 / newVariance - free, 0);
          pull = (freeMean + sigma * lift) / newVariance - freeMean * free;
        }
        this.#freeMean[a] = freeMean;
        this.#freeVariance[a] = freeVariance;
        const change = precision - oldPrecision;
        moved = Math.max(moved, Math.abs(change) * variance, Math.abs(pull - oldPull) * sigma);
        cutPrecision[a] = precision;
        cutPull[a] = pull;
        this.#shift(a, count, change, pull - oldPull);
      }
      if (moved < SETTLED || sweep === SWEEPS - 1) {
        const logDeterminant = this.invert();
        let square = 0;
        for (let a = 0; a < count; a += 1) {
          square += (means[a] ?? 0) * ((this.pull[a] ?? 0) + (cutPull[a] ?? 0));
        }
        return this.#leftByCuts(count) + 0.5 * square + 0.5 * (count * LOG_2_PI - logDeterminant);
      }
    }
  }

  /** ln of what the cuts leave, beyond their normal factors. */
  #leftByCuts(count: number): number {
    let left = 0;
    for (let a = 0; a < count; a += 1) {
      const mean = this.#freeMean[a] ?? 0;
      const variance = this.#freeVariance[a] ?? 1;
      const cut = this.#cuts[a];
      if (!cut || mean / Math.sqrt(variance) >= CERTAIN) continue;
      const precision = this.#cutPrecision[a] ?? 0;
      const pull = this.#cutPull[a] ?? 0;
      const growth = 1 + precision * variance;
      const square = 2 * mean * pull + pull * pull * variance - mean * mean * precision;
      left += cut.logShare() + 0.5 * Math.log(growth) - (0.5 * square) / growth;
    }
    return left;
  }

  #integrateOne(): number {
    const precision = this.precision[0] ?? 1;
    const sigma = 1 / Math.sqrt(precision);
    const mean = (this.pull[0] ?? 0) / precision;
    const z = mean / sigma;
    const [cut] = this.#cuts;
    if (z <= CERTAIN) cut?.take(z);
    const lift = z > CERTAIN ? 0 : (cut?.lift ?? 0);
    this.means[0] = mean + sigma * lift;
    this.covariance[0] = Math.max((1 - lift * (lift + z)) / precision, 0);
    return (
      (z > CERTAIN ? 0 : (cut?.logShare() ?? 0)) +
      0.5 * z * z +
      0.5 * LOG_2_PI -
      0.5 * Math.log(precision)
    );
  }

  /** Covariance and mean from precision and pull, cuts included; returns ln det of the precision. */
  invert(): number {
    const { covariance, count } = this;
    const p = this.precision;
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
    this.#isInverted = true;
    this.#centre();
    return logDeterminant;
  }

  /** Means from covariance and pull, cuts included. */
  #centre(): void {
    const { means, covariance, pull, count } = this;
    for (let i = 0; i < count; i += 1) {
      let sum = 0;
      for (let j = 0; j < count; j += 1) {
        sum += (covariance[i * MOST_AMOUNTS + j] ?? 0) * ((pull[j] ?? 0) + (this.#cutPull[j] ?? 0));
      }
      means[i] = sum;
    }
  }

  /** After the cut of one amount has changed. */
  #shift(a: number, count: number, precision: number, pull: number): void {
    const { means, covariance } = this;
    const w = MOST_AMOUNTS;
    const variance = covariance[a * w + a] ?? 0;
    const factor = precision / (1 + precision * variance);
    const gain = (pull - precision * (means[a] ?? 0)) / (1 + precision * variance);
    for (let i = 0; i < count; i += 1) column[i] = covariance[a * w + i] ?? 0;
    for (let i = 0; i < count; i += 1) {
      means[i] = (means[i] ?? 0) + (column[i] ?? 0) * gain;
      for (let j = 0; j < count; j += 1) {
        covariance[i * w + j] =
          (covariance[i * w + j] ?? 0) - factor * (column[i] ?? 0) * (column[j] ?? 0);
      }
    }
  }
}

const LOG_2_PI = Math.log(2 * Math.PI);
const column = new Float64Array(MOST_AMOUNTS);
