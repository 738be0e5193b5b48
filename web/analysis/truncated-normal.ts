/** The part of a normal distribution above zero. */

const SQRT_2_PI = Math.sqrt(2 * Math.PI);

/**
 * Mills' ratio (1 − Φ(x))/φ(x) for x ≥ 0: Abramowitz and Stegun, Handbook of Mathematical Functions,
 * 26.2.17 (|error| < 7.5e-8 of the probability) up to 2, beyond it Sampford's bound
 * 4/(3x + √(x² + 8)) (Annals of Mathematical Statistics 24, 1953), within 0.3 %.
 */
function millsRatio(x: number): number {
  if (x > 2) return 4 / (3 * x + Math.sqrt(x * x + 8));
  const t = 1 / (1 + 0.2316419 * x);
  return (
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  );
}

/** φ(z)/Φ(z): by how many deviations cutting off what lies below zero lifts the mean. */
export function hazard(z: number): number {
  if (z <= 0) return 1 / millsRatio(-z);
  const density = Math.exp(-0.5 * z * z) / SQRT_2_PI;
  return density / (1 - density * millsRatio(z));
}

/** ln Φ(z): the share that lies above zero where the mean is z deviations above it. */
export function logShareAbove(z: number): number {
  if (z <= 0) return -0.5 * z * z + Math.log(millsRatio(-z) / SQRT_2_PI);
  return Math.log1p((-Math.exp(-0.5 * z * z) / SQRT_2_PI) * millsRatio(z));
}
