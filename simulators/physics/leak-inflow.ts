/** How much air a leak lets in. */
import { STANDARD_ATMOSPHERE_PA } from '../../protocol/units.ts';

/** Below this ratio of inner to outer pressure the flow is choked and no longer depends on it. */
const CRITICAL_RATIO = 0.5;

/**
 * Inflow of air from outside, Pa·m³/s: constant while the pressure inside is below half an
 * atmosphere, above that falling to nothing along the ellipse of ISO 6358-1,
 * q/q* = √(1 − ((r − b)/(1 − b))²), with b = 0.5 (from memory).
 * @param chokedPaM3PerS q*, the inflow into a vacuum
 */
export function leakInflowPaM3PerS(chokedPaM3PerS: number, insidePa: number): number {
  const ratio = insidePa / STANDARD_ATMOSPHERE_PA;
  if (ratio >= 1) return 0;
  if (ratio <= CRITICAL_RATIO) return chokedPaM3PerS;
  return chokedPaM3PerS * Math.sqrt(1 - ((ratio - CRITICAL_RATIO) / (1 - CRITICAL_RATIO)) ** 2);
}
