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

/** A normal distribution of deviation 1, cut off at zero: for one mean after another. */
export class CutAtZero {
  /** φ(z)/Φ(z): by how many deviations cutting off what lies below zero lifts the mean. */
  lift = 0;
  #z = 0;
  /** Of a mean below zero Mills' ratio, else the share that is cut off: lift and share both need it. */
  #tail = 0;

  /** @param z where the mean is */
  take(z: number): void {
    this.#z = z;
    if (z <= 0) {
      this.#tail = millsRatio(-z);
      this.lift = 1 / this.#tail;
      return;
    }
    const density = Math.exp(-0.5 * z * z) / SQRT_2_PI;
    this.#tail = density * millsRatio(z);
    this.lift = density / (1 - this.#tail);
  }

  /** ln Φ(z): the share that lies above zero. */
  logShare(): number {
    const z = this.#z;
    return z <= 0 ? -0.5 * z * z + Math.log(this.#tail / SQRT_2_PI) : Math.log1p(-this.#tail);
  }
}

/** The same share where the mean is z deviations above zero. */
export function logShareAbove(z: number): number {
  const cut = new CutAtZero();
  cut.take(z);
  return cut.logShare();
}
