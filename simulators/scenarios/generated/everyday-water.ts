/** What walls and oil of every system hold. */
import type { HeldGas } from './faults.ts';
import type { Job } from './job.ts';

/**
 * Given off at once, in minutes and slowly. A larger system has less wall for its volume. Invented,
 * so that a small one in order comes down in five to ten minutes.
 * @param wetness a multiple of what is usual
 */
export function everydayWater(
  { insideVapourPa, volumeM3 }: Pick<Job, 'insideVapourPa' | 'volumeM3'>,
  wetness: number,
): HeldGas[] {
  const share = wetness * Math.min(1, (5e-3 / volumeM3) ** (1 / 3));
  return [
    { ratio: 26 * share, exchangeS: 25, startPa: insideVapourPa },
    { ratio: 3.5 * share, exchangeS: 120, startPa: insideVapourPa },
    { ratio: 1.2 * share, exchangeS: 1000, startPa: 0.3 * insideVapourPa },
    { ratio: 1.2 * share, exchangeS: 8000, startPa: 0.25 * insideVapourPa },
  ];
}
