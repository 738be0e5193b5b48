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

/** The causes of error, each with its covariances (lower triangles, row by row) at its own full size. */
export interface Errors {
  readonly size: number;
  /** What fades within the noise's own time. */
  readonly noise: Float64Array;
  /** What wanders over minutes, were it as large as the pressure itself. */
  readonly wander: Float64Array;
  /** What a display rounds away. */
  readonly rounding: Float64Array;
  /** White noise: its variance at each point. */
  readonly white: Float64Array;
}

/**
 * White noise falls with the number of samples in a point; what fades with τ is averaged over the
 * width w of a point: variance 2·(x − 1 + e^(−x))/x² with x = w/τ, and between two points
 * (1 − e^(−x₁))·(1 − e^(−x₂))/(x₁·x₂)·e^(−gap/τ): averages of an Ornstein–Uhlenbeck process.
 */
export function errorsOf(points: readonly RisePoint[], noise: Noise): Errors {
  const { whiteShare, correlationS, varianceAt } = noise;
  return {
    size: points.length,
    noise: fadingCovariance(points, {
      sigmaPa: ({ pressurePa }) => Math.sqrt((1 - whiteShare) * varianceAt(pressurePa)),
      lastsS: correlationS,
    }),
    wander: fadingCovariance(points, { sigmaPa: ({ pressurePa }) => pressurePa, lastsS: WANDER_S }),
    rounding: fadingCovariance(points, {
      // Rounding errors are even over a step: its width over √12.
      sigmaPa: ({ stepPa }) => stepPa / Math.sqrt(12),
      lastsS: Math.max(...points.map(({ dwellS }) => dwellS / 2), 1),
    }),
    white: Float64Array.from(
      points,
      ({ pressurePa, count }) => (whiteShare * varianceAt(pressurePa)) / count,
    ),
  };
}

function fadingCovariance(points: readonly RisePoint[], { sigmaPa, lastsS }: Fading): Float64Array {
  const size = points.length;
  const cov = new Float64Array(size * size);
  const sigmas = Float64Array.from(points, sigmaPa);
  if (!sigmas.some((sigma) => sigma > 0)) return cov;
  const averaged = new Float64Array(size);
  const heldS = new Float64Array(size);
  const widthS = new Float64Array(size);
  for (let i = 0; i < size; i += 1) {
    const point = points[i];
    if (point === undefined) break;
    const x = point.widthS / lastsS;
    averaged[i] = x < 1e-3 ? 1 : (1 - Math.exp(-x)) / x;
    heldS[i] = point.heldS;
    widthS[i] = point.widthS;
  }
  for (let i = 0; i < size; i += 1) {
    const x = (widthS[i] ?? 0) / lastsS;
    const own = x < 1e-2 ? 1 - x / 3 : (2 * (x - 1 + Math.exp(-x))) / (x * x);
    const sigma = sigmas[i] ?? 0;
    cov[i * size + i] = sigma * sigma * own;
    for (let j = i - 1; j >= 0; j -= 1) {
      const apartS = (heldS[i] ?? 0) - (heldS[j] ?? 0);
      const gapS = Math.max(apartS - ((widthS[i] ?? 0) + (widthS[j] ?? 0)) / 2, 0);
      if (gapS > 8 * lastsS) break;
      const shared = (averaged[i] ?? 0) * (averaged[j] ?? 0) * Math.exp(-gapS / lastsS);
      cov[i * size + j] = sigma * (sigmas[j] ?? 0) * shared;
    }
  }
  return cov;
}

/** The lower triangle of the Cholesky factor of all covariances together, row by row. */
export function covarianceFactor(errors: Errors, { wanderShare, scale }: Extra): Float64Array {
  const { size, noise, wander, rounding, white } = errors;
  const cov = new Float64Array(size * size);
  const share2 = wanderShare * wanderShare;
  for (let i = 0; i < size; i += 1) {
    for (let at = i * size; at <= i * size + i; at += 1) {
      cov[at] = scale * (noise[at] ?? 0) + share2 * (wander[at] ?? 0) + (rounding[at] ?? 0);
    }
    cov[i * size + i] = (cov[i * size + i] ?? 0) + scale * (white[i] ?? 0) + 1e-12;
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

/** So many columns go side by side: a sum has to wait for its own last addition, and for no other's. */
const ASIDE = 4;

/** Solves factor·x = column for each column: the entries of x have variance 1 and no correlation. */
export function whiten(
  factor: Float64Array,
  size: number,
  columns: readonly Float64Array[],
): Float64Array[] {
  const whites = columns.map((column) => Float64Array.from(column));
  for (let first = 0; first < whites.length; first += ASIDE) {
    const [a = NONE, b = a, c = a, d = a] = whites.slice(first, first + ASIDE);
    if (b === a || c === a || d === a)
      for (const one of new Set([a, b, c])) whitenOne(factor, size, one);
    else whitenFour(factor, size, a, b, c, d);
  }
  return whites;
}

const NONE = new Float64Array(0);

function whitenOne(factor: Float64Array, size: number, x: Float64Array): void {
  for (let i = 0; i < size; i += 1) {
    let sum = x[i] ?? 0;
    for (let k = 0; k < i; k += 1) sum -= (factor[i * size + k] ?? 0) * (x[k] ?? 0);
    x[i] = sum / (factor[i * size + i] ?? 1);
  }
}

function whitenFour(
  factor: Float64Array,
  size: number,
  a: Float64Array,
  b: Float64Array,
  c: Float64Array,
  d: Float64Array,
): void {
  for (let i = 0; i < size; i += 1) {
    let sumA = a[i] ?? 0;
    let sumB = b[i] ?? 0;
    let sumC = c[i] ?? 0;
    let sumD = d[i] ?? 0;
    for (let k = 0; k < i; k += 1) {
      const share = factor[i * size + k] ?? 0;
      sumA -= share * (a[k] ?? 0);
      sumB -= share * (b[k] ?? 0);
      sumC -= share * (c[k] ?? 0);
      sumD -= share * (d[k] ?? 0);
    }
    const own = factor[i * size + i] ?? 1;
    a[i] = sumA / own;
    b[i] = sumB / own;
    c[i] = sumC / own;
    d[i] = sumD / own;
  }
}
