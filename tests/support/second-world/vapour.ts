/**
 * Vapour pressure of water and ice by short formulas, so that this world shares nothing with the
 * one that the project itself reckons by.
 *
 * A. L. Buck, New Equations for Computing Vapor Pressure and Enhancement Factor, Journal of Applied
 * Meteorology 20 (1981), 1527–1532: the curves ew1 and ei2, without the enhancement by air.
 */

/** Specific gas constant of water: 8.314462618 J/(mol·K) / 0.018015 kg/mol. */
export const WATER_GAS_J_PER_KG_K = 461.5;
/** Heat of vaporisation at 0 °C, J/kg (steam tables). */
export const VAPORISATION_J_PER_KG = 2.501e6;
/** Heat of fusion, J/kg (steam tables). */
export const FUSION_J_PER_KG = 3.337e5;
/** Specific heat of liquid water, J/(kg·K). */
export const WATER_J_PER_KG_K = 4200;

/** Saturation pressure, Pa, over liquid from 0 °C upward and over ice below; −60 to 60 °C. */
export function saturationPa(temperatureC: number): number {
  return temperatureC >= 0
    ? 611.21 * Math.exp((17.502 * temperatureC) / (240.97 + temperatureC))
    : 611.15 * Math.exp((22.452 * temperatureC) / (272.55 + temperatureC));
}

/** Its slope, Pa/K. */
export function saturationPaPerK(temperatureC: number): number {
  const [a, b] = temperatureC >= 0 ? [17.502, 240.97] : [22.452, 272.55];
  return (saturationPa(temperatureC) * a * b) / (b + temperatureC) ** 2;
}
