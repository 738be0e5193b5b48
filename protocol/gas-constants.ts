/** Constants of nature that turn a flow of gas into moles, grams and standard volumes. */

/** Molar gas constant, J/(mol·K), exact (SI Brochure, 9th edition). */
export const GAS_CONSTANT = 8.314462618;

/** Molar mass of dry air, kg/mol (U.S. Standard Atmosphere 1976, table of constants). */
export const AIR_KG_PER_MOL = 0.0289644;

/** Molar mass of water, kg/mol (IAPWS R6-95). */
export const WATER_KG_PER_MOL = 0.018015268;

/** Viscosity of air at 20 °C and 1 atm, Pa·s: Pfeiffer Vacuum, Vacuum Technology Know how, 1.2.6. */
export const AIR_VISCOSITY_PA_S = 18.2e-6;

/** A Julian year, s: 365.25 · 86 400. */
export const YEAR_S = 31_557_600;
