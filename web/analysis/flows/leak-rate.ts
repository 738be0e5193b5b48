/** Inflow through a leak, in the units that people state leaks in. */
import { AIR_KG_PER_MOL, GAS_CONSTANT, YEAR_S } from '../../../protocol/gas-constants.ts';
import {
  kelvinFromCelsius,
  PA_PER_MICRON,
  STANDARD_ATMOSPHERE_PA,
} from '../../../protocol/units.ts';
import type { Estimate } from '../conclusions.ts';

/**
 * Q = V·L, Pa·m³/s: what flows in when the pressure in the volume V (m³) rises by L (Pa/s) at a
 * steady temperature. Air from outside, under vacuum; the loss of refrigerant under pressure is
 * another flow. The volume is taken as exact: where it is known to a tenth, so is this.
 */
export function leakRatePaM3PerS(leakPaPerS: Estimate, volumeM3: number): Estimate {
  return scaled(leakPaPerS, volumeM3);
}

/** Air that flows into an evacuated system, gas at `temperatureC`. */
export interface LeakRate {
  /** Of the gas whose pressure rises: a throughput p·V/t says nothing of moles without it. */
  readonly temperatureC: number;
  readonly paM3PerS: Estimate;
  readonly mbarLPerS: Estimate;
  /** Micron of mercury times litre, a second. */
  readonly micronLPerS: Estimate;
  /** As a volume at 0 °C and 101 325 Pa: the 'standard' of vacuum practice; others have 20 °C. */
  readonly standardCm3PerMin: Estimate;
  readonly airGPerYear: Estimate;
}

/** Where nobody measured the temperature. A setting of ours: 10 K more or less are 3.4 %. */
export const USUAL_TEMPERATURE_C = 20;

/** Pa·m³/s in one mbar·L/s: 100 Pa · 0.001 m³. */
export const PA_M3_PER_MBAR_L = 100 * 1e-3;
const PA_M3_PER_MICRON_L = PA_PER_MICRON * 1e-3;
const STANDARD_K = 273.15;
const CM3_PER_M3 = 1e6;
const S_PER_MIN = 60;
const G_PER_KG = 1000;

/** @param temperatureC of the metal, or null where unknown: then `USUAL_TEMPERATURE_C` */
export function leakRateInUnits(paM3PerS: Estimate, temperatureC: number | null): LeakRate {
  const statedC = temperatureC ?? USUAL_TEMPERATURE_C;
  const temperatureK = kelvinFromCelsius(statedC);
  const molPerPaM3 = 1 / (GAS_CONSTANT * temperatureK);
  const standardM3PerMol = (GAS_CONSTANT * STANDARD_K) / STANDARD_ATMOSPHERE_PA;
  return {
    temperatureC: statedC,
    paM3PerS,
    mbarLPerS: scaled(paM3PerS, 1 / PA_M3_PER_MBAR_L),
    micronLPerS: scaled(paM3PerS, 1 / PA_M3_PER_MICRON_L),
    standardCm3PerMin: scaled(paM3PerS, molPerPaM3 * standardM3PerMol * CM3_PER_M3 * S_PER_MIN),
    airGPerYear: scaled(paM3PerS, gPerYearPerPaM3(AIR_KG_PER_MOL, temperatureK)),
  };
}

/** Grams a year of a gas in one Pa·m³/s: M/(R·T) · a year. */
export function gPerYearPerPaM3(kgPerMol: number, temperatureK: number): number {
  return ((kgPerMol * G_PER_KG) / (GAS_CONSTANT * temperatureK)) * YEAR_S;
}

function scaled({ estimate, low, high }: Estimate, factor: number): Estimate {
  return { estimate: estimate * factor, low: low * factor, high: high * factor };
}
