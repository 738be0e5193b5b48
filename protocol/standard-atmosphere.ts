/** The air's pressure at a height. */
import { STANDARD_ATMOSPHERE_PA } from './units.ts';

/**
 * Of the standard atmosphere (ISO 2533, ICAO Doc 7488, U.S. Standard Atmosphere 1976; the same up to 11 km):
 * p = p₀ (1 − 0.0065 h / 288.15)^5.25588. The weather moves the true one by some two per cent either way.
 */
export function atmosphereAtHeightPa(heightM: number): number {
  return STANDARD_ATMOSPHERE_PA * (1 - (0.0065 * heightM) / 288.15) ** 5.25588;
}
