/** Grams of water that the pump took away while it boiled: m = ∫ S·p·M/(R·T) dt over the plateau. */
import { GAS_CONSTANT, WATER_KG_PER_MOL } from '../../../protocol/gas-constants.ts';
import { kelvinFromCelsius } from '../../../protocol/units.ts';
import type { Estimate } from '../conclusions.ts';
import type { BoilOff } from './boil-off.ts';
import { USUAL_TEMPERATURE_C } from './leak-rate.ts';

/**
 * A hose lets water vapour through faster than air: by up to 18.2/9.7 = 1.9, the viscosities in µPa·s at
 * 20 °C (from memory); a pump does not.
 */
const VAPOUR_OVER_AIR: Estimate = { estimate: Math.sqrt(1.9), low: 1, high: 1.9 };
/**
 * What a gauge shows of water vapour, over its true pressure: from as much as there is (capacitance)
 * to half as much again and more (thermal conduction, calibrated for air). From memory.
 */
const SHOWN: Estimate = { estimate: 1.25, low: 1, high: 1.6 };
/** Water's part of the gas on a plateau: the rest is air that is still leaving. A setting of ours. */
const SHARE: Estimate = { estimate: 0.95, low: 0.85, high: 1 };
/** Nobody measures the gas in the hose: 10 K to either side. A setting of ours. */
const TEMPERATURE_K = 10;
const G_PER_KG = 1000;

/**
 * With a 90 % interval, as far as the uncertainties above are judged well. What left before and after the
 * plateau, from walls and oil too, is not counted.
 * @param speedM3PerS for air, at the system and the plateau's pressure: seen on the curve
 *   (`speedOnPlateauM3PerS`) or known of the rig; null where neither
 * @param temperatureC of the surroundings, or null where unknown
 */
export function waterRemovedG(
  { integralPaS }: BoilOff,
  speedM3PerS: Estimate | null,
  temperatureC: number | null,
): Estimate | null {
  if (speedM3PerS === null) return null;
  const temperatureK = kelvinFromCelsius(temperatureC ?? USUAL_TEMPERATURE_C);
  const gPerPaM3 = (WATER_KG_PER_MOL * G_PER_KG) / (GAS_CONSTANT * temperatureK);
  const shown = { estimate: 1 / SHOWN.estimate, low: 1 / SHOWN.high, high: 1 / SHOWN.low };
  const temperature = {
    estimate: 1,
    low: 1 - TEMPERATURE_K / temperatureK,
    high: 1 + TEMPERATURE_K / temperatureK,
  };
  const factors = [speedM3PerS, VAPOUR_OVER_AIR, SHARE, shown, temperature];
  return product(integralPaS * gPerPaM3, factors);
}

/** Of independent factors: their distances to either end, in logarithms, add up by their squares. */
function product(of: number, factors: readonly Estimate[]): Estimate {
  const estimate = factors.reduce((all, factor) => all * factor.estimate, of);
  const away = (end: 'low' | 'high') =>
    Math.hypot(...factors.map((factor) => Math.log(factor[end] / factor.estimate)));
  return {
    estimate,
    low: estimate * Math.exp(-away('low')),
    high: estimate * Math.exp(away('high')),
  };
}
