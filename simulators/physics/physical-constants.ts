/** Constants of nature and of water that the physical model uses, with their sources. */

/** Molar gas constant, J/(mol·K), exact (SI Brochure, 9th edition). */
export const GAS_CONSTANT = 8.314462618;

/** Molar mass of dry air, kg/mol (U.S. Standard Atmosphere 1976, table of constants). */
export const AIR_KG_PER_MOL = 0.0289644;

/** Molar mass of water, kg/mol (IAPWS R6-95). */
export const WATER_KG_PER_MOL = 0.018015268;

/**
 * Water at its triple point, per mole. The specific values 2500.9 kJ/kg (evaporation), 333.4 kJ/kg
 * (fusion), 4.22, 2.10 and 1.88 kJ/(kg·K) (liquid, ice, vapour at constant pressure) are those of
 * common steam and ice tables, from memory; they vary by a few per cent over the range used here,
 * and are held constant.
 */
export const EVAPORATION_J_PER_MOL = 2_500_900 * WATER_KG_PER_MOL;
export const FUSION_J_PER_MOL = 333_400 * WATER_KG_PER_MOL;
export const LIQUID_J_PER_MOL_K = 4220 * WATER_KG_PER_MOL;
export const ICE_J_PER_MOL_K = 2100 * WATER_KG_PER_MOL;
export const VAPOUR_J_PER_MOL_K = 1880 * WATER_KG_PER_MOL;
