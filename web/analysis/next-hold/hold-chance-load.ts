/**
 * The most that can flow into a system under pumping, told before it is valved off.
 *
 * V·dp/dt = −S·p + Q, so that once valved off the pressure rises at Q/V = r·p + dp/dt, with r = S/V in 1/s.
 * While it falls that is less than r·p; what walls give off lessens as the pressure rises, a leak stays,
 * and water that boils goes on by no more than the heat that it already boils by. So r·p bounds the rise
 * from above wherever r is an upper bound:
 * - The pump's displacement over the volume is one, whatever hose and cores let through: they only resist.
 * - The steepest fall that the curve has shown is none. Gas that came meanwhile slowed it, so that it is a
 *   lower bound of r, and of r at that pressure only: a thin hose lets less through as the pressure falls.
 *   But a sheet that allows less than what was seen is wrong, and bounds nothing.
 */
import type { Sheet } from '../../../protocol/sheet.ts';
import { steepestFallPerS } from '../pull-down/fall-seen.ts';
import type { PullDownPoint } from '../pull-down/pull-down-points.ts';

/** Pressures scatter, so that the steepest of many falls is too steep: a setting of ours. */
const SURELY = 0.8;

/**
 * @param pressurePa now
 * @param relativeRatePerS d ln P / dt now, 1/s; a fall is not counted in, since noise shows one as well
 * @param points since the rig last became another
 * @returns Pa/s, or null where nothing bounds it
 */
export function mostInflowPaPerS(
  pressurePa: number,
  relativeRatePerS: number,
  points: readonly PullDownPoint[],
  { volumeM3, pumpDisplacementM3PerS }: Sheet,
): number | null {
  if (volumeM3 === null || pumpDisplacementM3PerS === null) return null;
  const mostPerS = pumpDisplacementM3PerS / volumeM3;
  if (SURELY * steepestFallPerS(points) > mostPerS) return null;
  return (mostPerS + Math.max(relativeRatePerS, 0)) * pressurePa;
}
