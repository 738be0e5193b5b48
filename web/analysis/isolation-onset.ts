/** The moment at which a rise began, for an isolation that nobody marked. */
import type { Sample } from './samples.ts';
import { normalEquations, solveNonnegative } from './nonnegative-least-squares.ts';

/** Places that are tried: every second of some four minutes at most, else every other. */
const CANDIDATES = 240;

/**
 * The bend of a line that turns upward once, by least squares over all places where it might, s.
 * The lowest sample alone would be off by minutes where a flat curve is noisy.
 * @param samples a few minutes before the rise was noticed, and what followed
 * @param otherwiseS the answer where there are too few samples to see a bend
 */
export function isolationOnsetS(samples: readonly Sample[], otherwiseS: number): number {
  if (samples.length < 6) return otherwiseS;
  const times = samples.map((sample) => sample.elapsedS - otherwiseS);
  const values = samples.map((sample) => sample.pressurePa);
  const weights = samples.map(() => 1);
  const step = Math.max(1, Math.ceil(samples.length / CANDIDATES));
  let bestS = otherwiseS;
  let least = Infinity;
  for (let i = 1; i < samples.length - 2; i += step) {
    const bendS = times[i] ?? 0;
    const columns = [
      times.map(() => 1),
      times.map((timeS) => Math.min(timeS - bendS, 0)),
      times.map((timeS) => Math.max(timeS - bendS, 0)),
    ];
    const { residual } = solveNonnegative(normalEquations(columns, values, weights), [
      true,
      true,
      false,
    ]);
    if (residual < least) {
      least = residual;
      bestS = otherwiseS + bendS;
    }
  }
  return bestS;
}
