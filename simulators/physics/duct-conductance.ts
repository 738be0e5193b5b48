/** Conductance of a hose or line with what sits in it, for the gas that flows through. */
import type { DuctSetup } from './rig-setup.ts';
import {
  AIR_KG_PER_MOL,
  AIR_OVER_VAPOUR_VISCOSITY,
  WATER_KG_PER_MOL,
} from './physical-constants.ts';
import { orificeConductanceM3PerS } from './orifice-conductance.ts';
import { tubeConductanceM3PerS } from './tube-conductance.ts';

const MOLECULAR_WATER_OVER_AIR = Math.sqrt(AIR_KG_PER_MOL / WATER_KG_PER_MOL);

/**
 * Tube and core in series, 1/C = 1/C_tube + 1/C_core, m³/s.
 *
 * For a mixture of air and water vapour, viscosity and molecular speed are averaged by mole fraction
 * (crude: real mixtures differ by some per cent).
 *
 * @param meanPa mean of the total pressures at both ends
 * @param waterFraction mole fraction of water vapour in the gas
 */
export function ductConductanceM3PerS(
  duct: Pick<DuctSetup, 'diameterM' | 'lengthM' | 'coreDiameterM'>,
  meanPa: number,
  waterFraction: number,
): number {
  const viscousFactor = 1 / (1 - waterFraction + waterFraction / AIR_OVER_VAPOUR_VISCOSITY);
  const molecularFactor = 1 - waterFraction + waterFraction * MOLECULAR_WATER_OVER_AIR;
  const tube = tubeConductanceM3PerS(
    duct.diameterM,
    duct.lengthM,
    meanPa,
    viscousFactor,
    molecularFactor,
  );
  if (duct.coreDiameterM === null) return tube;
  const core = orificeConductanceM3PerS(duct.coreDiameterM, meanPa) * molecularFactor;
  return 1 / (1 / tube + 1 / core);
}
