/** Fits a spectrum of decays to falling pressures: a few damped steps from what was to be expected. */
import { choleskyFactor, choleskySolve } from '../fitting/cholesky.ts';
import { curvatureOf, gradientOf, look, priorOf, SLOPE, StateRoom } from './decay-posterior.ts';
import type { DecayData, DecayFit, FloorPrior } from './decay-spectrum.ts';

/**
 * Steps end once the misfit is down to the noise: what further steps would gain is detail that the
 * readings don't bear out (the discrepancy principle; Hanke, A regularizing Levenberg–Marquardt
 * scheme, Inverse Problems 13, 1997, 79). What they have not decided stays as it was guessed.
 */
const MOST_STEPS = 10;
const NOISE_SHARE = 1.2;
const LONGEST_STEP = 2;
const SETTLED = 1e-3;
/** Where a step makes things worse it is damped so much more, and tried again so often. */
const DAMPED_BY = 8;
const TRIALS = 6;

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
  // The best so far, and the next to be tried: they change places.
  let [state, tried] = [BEST.state(size, count), TRIED.state(size, count)];
  state.amplitudes.set(start ?? firstGuess(data, count, floor));
  look(data, prior, state);
  const [curvature, damped] = [new Float64Array(size * size), new Float64Array(size * size)];
  const [gradient, move] = [new Float64Array(size), new Float64Array(size)];
  let damping = 1e-3;
  curvatureOf(data, prior, state, curvature);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    gradientOf(data, state, gradient);
    let isBetter = false;
    for (let trial = 0; trial < TRIALS && !isBetter; trial += 1) {
      if (!findMove(move, curvature, gradient, damping, damped)) return null;
      for (let k = 0; k < size; k += 1) {
        tried.amplitudes[k] = (state.amplitudes[k] ?? 0) + (move[k] ?? 0);
      }
      look(data, prior, tried);
      isBetter = tried.cost <= state.cost + 1e-9;
      damping = isBetter ? Math.max(damping / DAMPED_BY, 1e-9) : damping * DAMPED_BY;
    }
    if (!isBetter) break;
    const gained = state.cost - tried.cost;
    [state, tried] = [tried, state];
    curvatureOf(data, prior, state, curvature);
    if (gained < SETTLED || state.misfit < NOISE_SHARE * count) break;
  }
  const factor = choleskyFactor(curvature, size, curvature);
  if (factor === null || !Number.isFinite(state.cost)) return null;
  const freedom = Math.max(count - 5, 3);
  const inflation = Math.max(state.misfit / freedom, 1);
  return { logAmplitudes: state.amplitudes.slice(), factor, inflation, tausS: data.tausS };
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

/**
 * A damped step of Newton's, cut to a length that the linearisation can bear.
 * @param damped room for the damped curvature, and then for its factor
 * @returns false where numbers fail
 */
function findMove(
  move: Float64Array,
  curvature: Float64Array,
  gradient: Float64Array,
  damping: number,
  damped: Float64Array,
): boolean {
  const size = gradient.length;
  damped.set(curvature);
  for (let i = 0; i < size; i += 1) {
    damped[i * size + i] = (damped[i * size + i] ?? 0) * (1 + damping);
  }
  const factor = choleskyFactor(damped, size, damped);
  if (factor === null) return false;
  choleskySolve(factor, gradient, move);
  let longest = 0;
  for (let k = 0; k < size; k += 1) longest = Math.max(longest, Math.abs(move[k] ?? 0));
  if (longest <= LONGEST_STEP) return true;
  for (let k = 0; k < size; k += 1) move[k] = ((move[k] ?? 0) * LONGEST_STEP) / longest;
  return true;
}

/** One fit goes on at a time. */
const [BEST, TRIED] = [new StateRoom(), new StateRoom()];
