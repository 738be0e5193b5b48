/** Inflow through a leak. */
import type { Estimate } from './conclusions.ts';

/**
 * Q = V·L, Pa·m³/s: what flows in when the pressure in the volume V (m³) rises by L (Pa/s) at a
 * steady temperature. Air from outside, under vacuum; the loss of refrigerant under pressure is
 * another flow.
 */
export function leakRatePaM3PerS(leakPaPerS: Estimate, volumeM3: number): Estimate {
  return {
    estimate: leakPaPerS.estimate * volumeM3,
    low: leakPaPerS.low * volumeM3,
    high: leakPaPerS.high * volumeM3,
  };
}
