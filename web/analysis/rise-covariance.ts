/** How the errors of the points of a hold hang together. */
import type { Noise } from './rise-noise.ts';
import type { RisePoint } from './rise-points.ts';

/** One cause of error that fades with time: its standard deviation at each point and how long it lasts. */
interface Fading {
  readonly sigmaPa: (point: RisePoint) => number;
  readonly lastsS: number;
}

interface Extra {
  /** Standard deviation of what wanders over minutes, as a share of the pressure. */
  readonly wanderShare: number;
  /** By how much the noise is larger than its estimate says. */
  readonly scale: number;
}

/** What no short stretch shows: sensor and metal warm up and cool down by turns, over minutes, s. */
const WANDER_S = 300;

/**
 * The lower triangle of the Cholesky factor of the covariance, row by row.
 *
 * White noise falls with the number of samples in a point; what fades with τ is averaged over the
 * width w of a point: variance 2·(x − 1 + e^(−x))/x² with x = w/τ, and between two points
 * (1 − e^(−x₁))·(1 − e^(−x₂))/(x₁·x₂)·e^(−gap/τ): averages of an Ornstein–Uhlenbeck process.
 */
export function covarianceFactor(
  points: readonly RisePoint[],
  noise: Noise,
  { wanderShare, scale }: Extra,
) {
  const size = points.length;
  const cov = new Float64Array(size * size);
  const fading: Fading[] = [
    {
      sigmaPa: ({ pressurePa }) =>
        Math.sqrt((1 - noise.whiteShare) * noise.varianceAt(pressurePa) * scale),
      lastsS: noise.correlationS,
    },
    { sigmaPa: ({ pressurePa }) => wanderShare * pressurePa, lastsS: WANDER_S },
    {
      // Rounding errors are even over a step: its width over √12.
      sigmaPa: ({ stepPa }) => stepPa / Math.sqrt(12),
      lastsS: Math.max(...points.map(({ dwellS }) => dwellS / 2), 1),
    },
  ];
  for (const { sigmaPa, lastsS } of fading) {
    const sigmas = points.map(sigmaPa);
    if (!sigmas.some((sigma) => sigma > 0)) continue;
    const averaged = points.map(({ widthS }) => {
      const x = widthS / lastsS;
      return x < 1e-3 ? 1 : (1 - Math.exp(-x)) / x;
    });
    for (let i = 0; i < size; i += 1) {
      const { heldS, widthS } = points[i] ?? { heldS: 0, widthS: 1 };
      const x = widthS / lastsS;
      const own = x < 1e-2 ? 1 - x / 3 : (2 * (x - 1 + Math.exp(-x))) / (x * x);
      const sigma = sigmas[i] ?? 0;
      cov[i * size + i] = (cov[i * size + i] ?? 0) + sigma * sigma * own;
      for (let j = i - 1; j >= 0; j -= 1) {
        const other = points[j] ?? { heldS: 0, widthS: 1 };
        const gapS = Math.max(heldS - other.heldS - (widthS + other.widthS) / 2, 0);
        if (gapS > 8 * lastsS) break;
        const shared = (averaged[i] ?? 0) * (averaged[j] ?? 0) * Math.exp(-gapS / lastsS);
        cov[i * size + j] = (cov[i * size + j] ?? 0) + sigma * (sigmas[j] ?? 0) * shared;
      }
    }
  }
  for (let i = 0; i < size; i += 1) {
    const { pressurePa, count } = points[i] ?? { pressurePa: 0, count: 1 };
    const white = (noise.whiteShare * noise.varianceAt(pressurePa) * scale) / count;
    cov[i * size + i] = (cov[i * size + i] ?? 0) + white + 1e-12;
  }
  return choleskyInPlace(cov, size);
}

function choleskyInPlace(matrix: Float64Array, size: number): Float64Array {
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = matrix[i * size + j] ?? 0;
      for (let k = 0; k < j; k += 1) {
        sum -= (matrix[i * size + k] ?? 0) * (matrix[j * size + k] ?? 0);
      }
      if (i === j) matrix[i * size + i] = Math.sqrt(Math.max(sum, 1e-14));
      else matrix[i * size + j] = sum / (matrix[j * size + j] ?? 1);
    }
  }
  return matrix;
}

/** Solves factor·x = column in place: afterwards its entries have variance 1 and no correlation. */
export function whiten(factor: Float64Array, size: number, column: Float64Array): void {
  for (let i = 0; i < size; i += 1) {
    let sum = column[i] ?? 0;
    for (let k = 0; k < i; k += 1) sum -= (factor[i * size + k] ?? 0) * (column[k] ?? 0);
    column[i] = sum / (factor[i * size + i] ?? 1);
  }
}
