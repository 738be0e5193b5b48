/** How the errors of the points of a hold hang together. */
import type { Noise } from './rise-noise.ts';
import type { RisePoint } from './rise-points.ts';

/** What no short stretch shows: sensor and metal warm up and cool down by turns, over minutes, s. */
const WANDER_S = 300;
/** Beyond so many of its times what fades is gone: e^−8. */
const GONE = 8;

/** The parts of the covariance, lower triangles row by row, Pa². */
export interface Covariance {
  readonly size: number;
  /** Of the sensor's noise, white and fading. */
  readonly noise: Float64Array;
  /** Of the display's steps. */
  readonly steps: Float64Array;
  /** Of what wanders, for a standard deviation as large as the pressure. */
  readonly wander: Float64Array;
}

/**
 * White noise falls with the number of samples in a point; what fades with τ is averaged over the
 * width w of a point: variance 2·(x − 1 + e^(−x))/x² with x = w/τ, and between two points
 * (1 − e^(−x₁))·(1 − e^(−x₂))/(x₁·x₂)·e^(−gap/τ): averages of an Ornstein–Uhlenbeck process.
 */
export function covarianceOf(points: readonly RisePoint[], noise: Noise): Covariance {
  const size = points.length;
  const fadingPa = points.map(({ pressurePa }) =>
    Math.sqrt((1 - noise.whiteShare) * noise.varianceAt(pressurePa)),
  );
  // Rounding errors are even over a step: its width over √12.
  const roundingPa = points.map(({ stepPa }) => stepPa / Math.sqrt(12));
  const dwellS = Math.max(...points.map((point) => point.dwellS / 2), 1);
  const parts = {
    size,
    noise: fading(points, fadingPa, noise.correlationS),
    steps: fading(points, roundingPa, dwellS),
    wander: fading(
      points,
      points.map(({ pressurePa }) => pressurePa),
      WANDER_S,
    ),
  };
  for (const [i, { pressurePa, count }] of points.entries()) {
    const at = i * size + i;
    const white = (noise.whiteShare * noise.varianceAt(pressurePa)) / count;
    parts.noise[at] = (parts.noise[at] ?? 0) + white + Number.EPSILON;
  }
  return parts;
}

function fading(
  points: readonly RisePoint[],
  sigmas: readonly number[],
  lastsS: number,
): Float64Array {
  const size = points.length;
  const cov = new Float64Array(size * size);
  if (!sigmas.some((sigma) => sigma > 0)) return cov;
  const averaged = points.map(({ widthS }) => {
    const x = widthS / lastsS;
    return x < 1e-3 ? 1 : -Math.expm1(-x) / x;
  });
  for (const [i, { heldS, widthS }] of points.entries()) {
    const x = widthS / lastsS;
    const own = x < 1e-2 ? 1 - x / 3 : (2 * (x + Math.expm1(-x))) / (x * x);
    const sigma = sigmas[i] ?? 0;
    cov[i * size + i] = sigma * sigma * own;
    for (let j = i - 1; j >= 0; j -= 1) {
      const other = points[j];
      if (!other) break;
      const gapS = Math.max(heldS - other.heldS - (widthS + other.widthS) / 2, 0);
      if (gapS > GONE * lastsS) break;
      const shared = (averaged[i] ?? 0) * (averaged[j] ?? 0) * Math.exp(-gapS / lastsS);
      cov[i * size + j] = sigma * (sigmas[j] ?? 0) * shared;
    }
  }
  return cov;
}

/** How large the parts are beside what they were estimated to be. */
export interface Sizes {
  /** Of the noise's variance. */
  readonly noiseScale: number;
  /** Standard deviation of what wanders, as a share of the pressure. */
  readonly wanderShare: number;
}

/** The Cholesky factor of the sum of the parts: lower triangle, row by row. */
export function factorOf(parts: Covariance, { noiseScale, wanderShare }: Sizes): Float64Array {
  const { size, noise, steps, wander } = parts;
  const factor = new Float64Array(size * size);
  const share2 = wanderShare * wanderShare;
  for (let i = 0; i < size; i += 1) {
    const row = i * size;
    for (let j = 0; j <= i; j += 1) {
      let sum =
        noiseScale * (noise[row + j] ?? 0) +
        (steps[row + j] ?? 0) +
        share2 * (wander[row + j] ?? 0);
      for (let k = 0; k < j; k += 1) {
        sum -= (factor[row + k] ?? 0) * (factor[j * size + k] ?? 0);
      }
      factor[row + j] =
        i === j ? Math.sqrt(Math.max(sum, Number.EPSILON)) : sum / (factor[j * size + j] ?? 1);
    }
  }
  return factor;
}

/** Solves factor·x = column in place: afterwards its entries have variance 1 and no correlation. */
export function whiten(factor: Float64Array, column: Float64Array): void {
  const size = column.length;
  for (let i = 0; i < size; i += 1) {
    let sum = column[i] ?? 0;
    for (let k = 0; k < i; k += 1) sum -= (factor[i * size + k] ?? 0) * (column[k] ?? 0);
    column[i] = sum / (factor[i * size + i] ?? 1);
  }
}
