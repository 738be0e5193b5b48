/**
 * Nitrogen shut in at a constant volume: how its pressure follows its temperature.
 *
 * p = ρRT·(1 + Bρ), with the second virial coefficient B = a − b·e^(c/T). At 35 bar it makes a degree weigh a twelfth
 * more than the ideal gas does: 500 psi (gauge) from 70 to 76 °F rise by 6.32 psi and not by 5.83 (CoolProp 8.0.0).
 */
import { GAS_CONSTANT } from '../../../protocol/gas-constants.ts';

/** cm³/mol, 75 to 700 K. Source: Kaye and Laby's table of second virial coefficients, as LibreTexts has it (A9). */
const VIRIAL = { a: 185.4, b: 141.8, cK: 88.7 };
const M3_PER_CM3 = 1e-6;

/** By the ideal gas's law, p₂ = p₁·T₂/T₁: absolute pressures and temperatures. */
export function idealPa(absolutePa: number, fromK: number, toK: number): number {
  return (absolutePa * toK) / fromK;
}

/** As nitrogen does it. */
export function nitrogenPa(absolutePa: number, fromK: number, toK: number): number {
  const molPerM3 = densityMolPerM3(absolutePa, fromK);
  return molPerM3 * GAS_CONSTANT * toK * (1 + virialM3PerMol(toK) * molPerM3);
}

function densityMolPerM3(absolutePa: number, temperatureK: number): number {
  const ideal = absolutePa / (GAS_CONSTANT * temperatureK);
  const virial = virialM3PerMol(temperatureK);
  // ρ + Bρ² = ideal, without the difference of two nearly equal roots.
  return (2 * ideal) / (1 + Math.sqrt(Math.max(1 + 4 * virial * ideal, 0)));
}

function virialM3PerMol(temperatureK: number): number {
  const { a, b, cK } = VIRIAL;
  return (a - b * Math.exp(cK / temperatureK)) * M3_PER_CM3;
}
