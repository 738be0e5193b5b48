/**
 * What a tube with a narrow place lets through, from viscous to molecular flow.
 *
 * Tube: M. Knudsen, Annalen der Physik 333 (1909), 75–130, the interpolation between Poiseuille's
 * law and free molecules. Narrow place: K. Jousten (ed.), Handbook of Vacuum Technology, the
 * conductance of an aperture in molecular and in choked flow.
 */

export interface Duct {
  /** Inner diameter and length of one tube, m. */
  readonly boreM: number;
  readonly lengthM: number;
  /** Alike, side by side. */
  readonly count: number;
  /** Opening of the narrowest place (a core, a cap tube), m². */
  readonly openingM2: number;
}

const GAS_J_PER_MOL_K = 8.314462618;
/** Air: molar mass, kg/mol, and viscosity at 20 °C, Pa·s. */
const AIR_KG_PER_MOL = 0.02896;
const AIR_PA_S = 1.82e-5;
/** Water vapour: the same. */
const VAPOUR_KG_PER_MOL = 0.018015;
const VAPOUR_PA_S = 0.97e-5;
/** An aperture passes 11.6 L/(s·cm²) of molecules and 20 L/(s·cm²) of choked flow: air at 20 °C. */
const APERTURE_MOLECULAR_M_PER_S = 116;
const APERTURE_CHOKED_M_PER_S = 200;

/**
 * Conductance, m³/s: throughput Q = conductance · (p₁ − p₂).
 * @param meanPa mean of the pressures at its ends
 * @param vapourShare share of water vapour in the gas, 0 to 1
 */
export function conductanceM3PerS(
  { boreM, lengthM, count, openingM2 }: Duct,
  meanPa: number,
  vapourShare: number,
  temperatureC: number,
): number {
  const temperatureK = temperatureC + 273.15;
  const molarKg = AIR_KG_PER_MOL + vapourShare * (VAPOUR_KG_PER_MOL - AIR_KG_PER_MOL);
  const viscosityPaS =
    (AIR_PA_S + vapourShare * (VAPOUR_PA_S - AIR_PA_S)) * (temperatureK / 293.15) ** 0.75;
  const thermal = Math.sqrt(molarKg / (GAS_J_PER_MOL_K * temperatureK));
  const viscous = (Math.PI * boreM ** 4 * meanPa) / (128 * viscosityPaS * lengthM);
  // Mean molecular speed √(8RT/πM); a long tube passes π·d³·v/(12·l).
  const speedMPerS = Math.sqrt(8 / Math.PI) / thermal;
  const molecular = (Math.PI * boreM ** 3 * speedMPerS) / (12 * lengthM);
  const slip = (thermal * boreM * meanPa) / viscosityPaS;
  const tube = count * (viscous + (molecular * (1 + slip)) / (1 + 1.24 * slip));
  const choked = slip / (1 + slip);
  const apertureMPerS =
    (APERTURE_MOLECULAR_M_PER_S + choked * (APERTURE_CHOKED_M_PER_S - APERTURE_MOLECULAR_M_PER_S)) *
    Math.sqrt((AIR_KG_PER_MOL / molarKg) * (temperatureK / 293.15));
  const bores = (count * Math.PI * boreM * boreM) / 4;
  const opening = apertureMPerS * Math.min(openingM2, bores);
  return 1 / (1 / tube + 1 / opening);
}
