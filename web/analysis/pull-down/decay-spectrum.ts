/**
 * The falling pressure as a spectrum of decays: P(t) = Σ aₖ·e^(−t/τₖ) + a∞.
 *
 * What a pump removes decays on many time scales at once: free gas in seconds, gas that walls and
 * oil let go in minutes to days, an inflow never. Any curve whose fall only ever slows down is such
 * a sum (Bernstein's theorem on completely monotone functions), also the hyperbola of a thin hose
 * and tails like 1/t or 1/√t. So there is no choice of model; what is unknown are amplitudes, and
 * of these the readings tell some. For the rest stands a prior: that the logarithm of the amplitude
 * wanders from one time constant to the next. The spread of what may follow is that of a normal
 * distribution about the fit (Laplace's approximation; MacKay, Information Theory, Inference, and
 * Learning Algorithms, 2003, chapter 27).
 */
/** Pressures to be explained, and the decays they are explained by. Times count from the first. */
export interface DecayData {
  readonly timesS: Float64Array;
  /** ln(P/Pa). */
  readonly logs: Float64Array;
  /** Standard deviation of each of them. */
  readonly sigma: number;
  /** τₖ; the last column of the basis, an inflow that never ends, has none. */
  readonly tausS: readonly number[];
  /** e^(−t/τₖ), decay by decay. */
  readonly basis: Float64Array;
}

/** What is believed of a∞ before any reading: ln(P/Pa), and by how much it may be off. */
export interface FloorPrior {
  readonly log: number;
  readonly spread: number;
}

export interface DecayFit {
  /** ln(aₖ/Pa), the never-ending inflow last. */
  readonly logAmplitudes: Float64Array;
  /** Factor of the posterior's curvature: the covariance is its inverse, times `inflation`. */
  readonly factor: Float64Array;
  /** By how much the misfit says that the pressures are less certain than they claim; ≥ 1. */
  readonly inflation: number;
  readonly tausS: readonly number[];
}

/** ln P at a time, and how sure. */
export interface LogPressure {
  readonly log: number;
  readonly sigma: number;
}

/**
 * From a sixtieth to forty times the length of the record: quicker ones are over, slower ones can't be
 * told from an inflow. With twelve times it is cut short what a tail like 1/√t has left at 30 % of its
 * way, and such a tail is expected a fifth too early.
 */
const QUICKEST_SHARE = 1 / 64;
const SLOWEST_SHARE = 40;
/** A decay between two of the grid is matched by its neighbours to within a few per cent at most. */
export const GRID_STEP = 1.8;
/** @param sigma standard deviation of ln P at each point */
export function decayData(
  points: readonly { readonly elapsedS: number; readonly pressurePa: number }[],
  sigma: number,
): DecayData {
  const firstS = points[0]?.elapsedS ?? 0;
  const lengthS = Math.max((points.at(-1)?.elapsedS ?? 0) - firstS, 1);
  const tausS: number[] = [];
  for (let tauS = lengthS * QUICKEST_SHARE; tauS < lengthS * SLOWEST_SHARE; tauS *= GRID_STEP) {
    tausS.push(tauS);
  }
  const size = tausS.length + 1;
  const basis = new Float64Array(points.length * size).fill(1);
  const timesS = new Float64Array(points.length);
  const logs = new Float64Array(points.length);
  for (let row = 0; row < points.length; row += 1) {
    const { elapsedS = 0, pressurePa = 1 } = points[row] ?? {};
    timesS[row] = elapsedS - firstS;
    logs[row] = Math.log(pressurePa);
    for (let k = 0; k < tausS.length; k += 1) {
      basis[k * points.length + row] = Math.exp((firstS - elapsedS) / (tausS[k] ?? 1));
    }
  }
  return {
    timesS,
    logs,
    sigma,
    tausS,
    basis,
  };
}

/** ln P at a time since the first of the pressures. */
export function logPressureAt(fit: DecayFit, timeS: number): LogPressure {
  const { logAmplitudes, tausS, factor, inflation } = fit;
  const size = logAmplitudes.length;
  if (size > shares.length) shares = new Float64Array(2 * size);
  const log = sharesAt(logAmplitudes, tausS, timeS);
  // The square of the length of L⁻¹b is bᵀA⁻¹b.
  let square = 0;
  for (let i = 0; i < size; i += 1) {
    let part = shares[i] ?? 0;
    for (let k = 0; k < i; k += 1) part -= (factor[i * size + k] ?? 0) * (shares[k] ?? 0);
    part /= factor[i * size + i] ?? 1;
    shares[i] = part;
    square += part * part;
  }
  return { log, sigma: Math.sqrt(square) * Math.sqrt(inflation) };
}

/** Of one moment at a time. */
let shares = new Float64Array(64);

/**
 * What each decay contributes to the pressure at a time, as parts of it; these are ∂ ln P/∂ ln a.
 * @returns ln P
 */
function sharesAt(logAmplitudes: Float64Array, tausS: readonly number[], timeS: number): number {
  const size = logAmplitudes.length;
  let sum = 0;
  for (let k = 0; k < size; k += 1) {
    const decayed = k < tausS.length ? timeS / (tausS[k] ?? Infinity) : 0;
    const part = Math.exp((logAmplitudes[k] ?? 0) - decayed);
    shares[k] = part;
    sum += part;
  }
  for (let k = 0; k < size; k += 1) shares[k] = (shares[k] ?? 0) / sum;
  return Math.log(sum);
}
