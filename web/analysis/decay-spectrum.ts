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
import { choleskyFactor, choleskySolve, forwardSolve } from './cholesky.ts';

/** Pressures to be explained, and the decays they are explained by. Times count from the first. */
export interface DecayData {
  readonly timesS: Float64Array;
  /** ln(P/Pa). */
  readonly logs: Float64Array;
  /** Standard deviation of each of them. */
  readonly sigma: number;
  /** τₖ; the last column of the basis, an inflow that never ends, has none. */
  readonly tausS: readonly number[];
  /** e^(−t/τₖ), time by time. */
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
 * From a sixtieth to twelve times the length of the record: quicker ones are over, slower ones can't
 * be told from an inflow.
 */
const QUICKEST_SHARE = 1 / 64;
const SLOWEST_SHARE = 12;
/** A decay between two of the grid is matched by its neighbours to within a few per cent at most. */
const GRID_STEP = 1.8;
/**
 * Of ln a per unit of ln τ: the amplitude falls with τ as in a tail like t^(−0.8), between diffusion
 * (1/√t) and a wide spread of binding energies (1/t), and wanders by a factor e^3 or so. Settings
 * of ours; half as much or twice as much of either changes little on training curves.
 */
const SLOPE = -0.8;
const WANDER = 3;
/** Nothing is known of the amplitudes' size: within a factor e^6 of the pressure. */
const SIZE_SPREAD = 6;
/**
 * Steps end once the misfit is down to the noise: what further steps would gain is detail that the
 * readings don't bear out (the discrepancy principle; Hanke, A regularizing Levenberg–Marquardt
 * scheme, Inverse Problems 13, 1997, 79). What they have not decided stays as it was guessed.
 */
const MOST_STEPS = 8;
const NOISE_SHARE = 1.5;
const LONGEST_STEP = 2;
const SETTLED = 1e-3;
/** Where a step makes things worse it is damped so much more, and tried again so often. */
const DAMPED_BY = 8;
const TRIALS = 6;

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
  const basis = new Float64Array(points.length * size);
  for (const [row, { elapsedS }] of points.entries()) {
    for (const [k, tauS] of tausS.entries()) {
      basis[row * size + k] = Math.exp((firstS - elapsedS) / tauS);
    }
    basis[row * size + size - 1] = 1;
  }
  return {
    timesS: Float64Array.from(points, ({ elapsedS }) => elapsedS - firstS),
    logs: Float64Array.from(points, ({ pressurePa }) => Math.log(pressurePa)),
    sigma,
    tausS,
    basis,
  };
}

/**
 * Fits the first `count` of the pressures.
 * @param start amplitudes of a similar fit, to begin with
 * @returns null where numbers fail
 */
export function fitDecay(
  data: DecayData,
  count: number,
  floor: FloorPrior,
  start: Float64Array | null = null,
): DecayFit | null {
  const size = data.tausS.length + 1;
  const prior = priorOf(data, count, floor);
  let amplitudes = start ? Float64Array.from(start) : firstGuess(data, count, floor);
  let state = look(data, count, amplitudes, prior);
  let damping = 1e-3;
  let curvature = state.curvature();
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const gradient = state.gradient();
    let next: State | null = null;
    for (let trial = 0; trial < TRIALS && next === null; trial += 1) {
      const move = moveOf(curvature, gradient, damping);
      if (move === null) return null;
      const tried = look(data, count, plus(amplitudes, move), prior);
      if (tried.cost <= state.cost + 1e-9) {
        next = tried;
        damping = Math.max(damping / DAMPED_BY, 1e-9);
      } else damping *= DAMPED_BY;
    }
    if (next === null) break;
    const gained = state.cost - next.cost;
    state = next;
    amplitudes = next.amplitudes;
    curvature = state.curvature();
    if (gained < SETTLED || state.misfit < NOISE_SHARE * count) break;
  }
  const factor = choleskyFactor(curvature, size);
  if (factor === null || !Number.isFinite(state.cost)) return null;
  const freedom = Math.max(count - 5, 3);
  const inflation = Math.max(state.misfit / freedom, 1);
  return { logAmplitudes: amplitudes, factor, inflation, tausS: data.tausS };
}

/** ln P at a time since the first of the pressures. */
export function logPressureAt(fit: DecayFit, timeS: number): LogPressure {
  const { shares, log } = sharesAt(fit, timeS);
  return { log, sigma: lengthOf(forwardSolve(fit.factor, shares)) * Math.sqrt(fit.inflation) };
}

/** What each decay contributes to the pressure at a time, as parts of it; these are ∂ ln P/∂ ln a. */
function sharesAt({ logAmplitudes, tausS }: DecayFit, timeS: number) {
  const size = logAmplitudes.length;
  const shares = new Float64Array(size);
  let sum = 0;
  for (let k = 0; k < size; k += 1) {
    const decayed = k < tausS.length ? timeS / (tausS[k] ?? Infinity) : 0;
    const part = Math.exp((logAmplitudes[k] ?? 0) - decayed);
    shares[k] = part;
    sum += part;
  }
  for (let k = 0; k < size; k += 1) shares[k] = (shares[k] ?? 0) / sum;
  return { shares, log: Math.log(sum) };
}

function lengthOf(vector: Float64Array): number {
  let square = 0;
  for (const part of vector) square += part * part;
  return Math.sqrt(square);
}

/** The prior as ½·aᵀΛa − λᵀa. */
interface Prior {
  readonly precision: Float64Array;
  readonly linear: Float64Array;
}

function priorOf(data: DecayData, count: number, floor: FloorPrior): Prior {
  const size = data.tausS.length + 1;
  const precision = new Float64Array(size * size);
  const linear = new Float64Array(size);
  const add = (at: number, weight: number, mean: number) => {
    precision[at * size + at] = (precision[at * size + at] ?? 0) + weight;
    linear[at] = (linear[at] ?? 0) + weight * mean;
  };
  const perStep = 1 / (WANDER * WANDER * Math.log(GRID_STEP));
  const drift = SLOPE * Math.log(GRID_STEP);
  for (let k = 0; k + 2 < size; k += 1) {
    // (aₖ₊₁ − aₖ − drift)² / variance
    add(k, perStep, -drift);
    add(k + 1, perStep, drift);
    precision[k * size + k + 1] = (precision[k * size + k + 1] ?? 0) - perStep;
    precision[(k + 1) * size + k] = (precision[(k + 1) * size + k] ?? 0) - perStep;
  }
  add((size - 1) >> 1, 1 / SIZE_SPREAD ** 2, data.logs[count - 1] ?? 0);
  add(size - 1, 1 / floor.spread ** 2, floor.log);
  return { precision, linear };
}

/** A tail of the expected slope through the present pressure, and the floor as expected. */
function firstGuess(data: DecayData, count: number, floor: FloorPrior): Float64Array {
  const { tausS, logs, timesS } = data;
  const last = logs[count - 1] ?? 0;
  const lengthS = timesS[count - 1] ?? 1;
  const guess = Float64Array.from([...tausS, Infinity], (tauS) =>
    Math.min(last - 1 + SLOPE * Math.log(Math.min(tauS, 1e9) / lengthS), (logs[0] ?? last) + 1),
  );
  guess[tausS.length] = Math.min(floor.log, last - 0.7);
  return guess;
}

/** The posterior at certain amplitudes. */
interface State {
  readonly amplitudes: Float64Array;
  /** Twice the negative logarithm of the posterior, but for a constant. */
  readonly cost: number;
  /** The part of it that is the pressures'. */
  readonly misfit: number;
  readonly gradient: () => Float64Array;
  readonly curvature: () => Float64Array;
}

function look(data: DecayData, count: number, amplitudes: Float64Array, prior: Prior): State {
  const size = amplitudes.length;
  const weight = 1 / (data.sigma * data.sigma);
  const heights = amplitudes.map((log) => Math.exp(log));
  const shares = new Float64Array(count * size);
  const rests = new Float64Array(count);
  let misfit = 0;
  for (let row = 0; row < count; row += 1) {
    const at = row * size;
    let sum = 0;
    for (let k = 0; k < size; k += 1) {
      const part = (heights[k] ?? 0) * (data.basis[at + k] ?? 0);
      shares[at + k] = part;
      sum += part;
    }
    for (let k = 0; k < size; k += 1) shares[at + k] = (shares[at + k] ?? 0) / sum;
    const rest = (data.logs[row] ?? 0) - Math.log(sum);
    rests[row] = rest;
    misfit += rest * rest * weight;
  }
  const pull = new Float64Array(size);
  let cost = misfit;
  for (let i = 0; i < size; i += 1) {
    let sum = 0;
    for (let j = 0; j < size; j += 1) {
      sum += (prior.precision[i * size + j] ?? 0) * (amplitudes[j] ?? 0);
    }
    pull[i] = (prior.linear[i] ?? 0) - sum;
    cost += (amplitudes[i] ?? 0) * (sum - 2 * (prior.linear[i] ?? 0));
  }
  return {
    amplitudes,
    cost,
    misfit,
    gradient: () => {
      const gradient = Float64Array.from(pull);
      for (let row = 0; row < count; row += 1) {
        const rest = (rests[row] ?? 0) * weight;
        for (let k = 0; k < size; k += 1) {
          gradient[k] = (gradient[k] ?? 0) + rest * (shares[row * size + k] ?? 0);
        }
      }
      return gradient;
    },
    curvature: () => {
      const curvature = new Float64Array(size * size);
      for (let row = 0; row < count; row += 1) {
        const at = row * size;
        for (let i = 0; i < size; i += 1) {
          const left = (shares[at + i] ?? 0) * weight;
          // What has decayed away contributes nothing: half of the work is saved.
          if (left < 1e-9 * weight) continue;
          for (let j = 0; j <= i; j += 1) {
            curvature[i * size + j] = (curvature[i * size + j] ?? 0) + left * (shares[at + j] ?? 0);
          }
        }
      }
      for (let i = 0; i < size; i += 1) {
        for (let j = 0; j <= i; j += 1) {
          const value = (curvature[i * size + j] ?? 0) + (prior.precision[i * size + j] ?? 0);
          curvature[i * size + j] = value;
          curvature[j * size + i] = value;
        }
      }
      return curvature;
    },
  };
}

/** A damped step of Newton's, cut to a length that the linearisation can bear. */
function moveOf(
  curvature: Float64Array,
  gradient: Float64Array,
  damping: number,
): Float64Array | null {
  const size = gradient.length;
  const damped = Float64Array.from(curvature);
  for (let i = 0; i < size; i += 1) {
    damped[i * size + i] = (damped[i * size + i] ?? 0) * (1 + damping);
  }
  const factor = choleskyFactor(damped, size);
  if (factor === null) return null;
  const move = choleskySolve(factor, gradient);
  const longest = move.reduce((most, part) => Math.max(most, Math.abs(part)), 0);
  return longest > LONGEST_STEP ? move.map((part) => (part * LONGEST_STEP) / longest) : move;
}

function plus(left: Float64Array, right: Float64Array): Float64Array {
  return left.map((value, i) => value + (right[i] ?? 0));
}
