/** Constants of water that the physical model uses, with their sources. */
import { WATER_KG_PER_MOL } from '../../protocol/gas-constants.ts';

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
