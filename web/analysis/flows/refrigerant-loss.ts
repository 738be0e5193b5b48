/**
 * What a leak that lets air into a vacuum would lose of refrigerant under pressure: as a range between
 * the two laws of flow, in orders of magnitude.
 *
 * Through one and the same hole a gas flows, as p·V in a second (vacuum handbooks; for instance
 * leakdetection-technology.com, the flow of gases in leaks),
 *
 *     molecular: ∝ (p₁ − p₂)/√M        laminar: ∝ (p₁² − p₂²)/η
 *
 * Which law holds depends on the width of the hole, which nobody knows. Holes also open, choke or fill
 * with oil under pressure, and where liquid stands at them far more flows: hence no figure, but a range.
 * The nitrogen test under pressure decides what is tight; a vacuum finds gross leaks only.
 */
import { AIR_KG_PER_MOL, AIR_VISCOSITY_PA_S } from '../../../protocol/gas-constants.ts';
import type { Refrigerant } from '../../../protocol/refrigerants.ts';
import { kelvinFromCelsius, STANDARD_ATMOSPHERE_PA } from '../../../protocol/units.ts';
import type { Estimate } from '../conclusions.ts';
import { gPerYearPerPaM3 } from './leak-rate.ts';

/** Orders of magnitude: powers of ten, and nothing finer. */
export interface RefrigerantLoss {
  readonly refrigerant: string;
  /** Absolute, in the system. */
  readonly pressurePa: number;
  /** The loss would lie between 10 to the power of `leastPower` and of `mostPower` grams a year. */
  readonly leastPower: number;
  readonly mostPower: number;
}

/**
 * @param airPaM3PerS what flows in from 1 atm into the vacuum
 * @param pressurePa absolute, of the refrigerant in the system, against 1 atm outside
 * @returns null where the leak may be none at all, or where nothing would flow out
 */
export function refrigerantLoss(
  airPaM3PerS: Estimate,
  refrigerant: Refrigerant,
  pressurePa: number,
  temperatureC: number,
): RefrigerantLoss | null {
  if (!(airPaM3PerS.low > 0) || !(pressurePa > STANDARD_ATMOSPHERE_PA)) return null;
  const { molecular, laminar } = flowRatios(refrigerant, pressurePa);
  const gPerYear = gPerYearPerPaM3(refrigerant.kgPerMol, kelvinFromCelsius(temperatureC));
  const least = airPaM3PerS.low * Math.min(molecular, laminar) * gPerYear;
  const most = airPaM3PerS.high * Math.max(molecular, laminar) * gPerYear;
  return {
    refrigerant: refrigerant.number,
    pressurePa,
    leastPower: Math.floor(Math.log10(least)),
    mostPower: Math.ceil(Math.log10(most)),
  };
}

/**
 * The flow of refrigerant from `pressurePa` to 1 atm over that of air from 1 atm into vacuum, both as
 * p·V in a second, by either law.
 */
export function flowRatios(
  { kgPerMol, viscosityPaS }: Refrigerant,
  pressurePa: number,
): { readonly molecular: number; readonly laminar: number } {
  const outside = STANDARD_ATMOSPHERE_PA;
  return {
    molecular: Math.sqrt(AIR_KG_PER_MOL / kgPerMol) * ((pressurePa - outside) / outside),
    laminar:
      (AIR_VISCOSITY_PA_S / viscosityPaS) * ((pressurePa ** 2 - outside ** 2) / outside ** 2),
  };
}
