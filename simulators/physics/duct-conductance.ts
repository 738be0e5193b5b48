/** Conductance of a hose or line with what sits in it, for the gas that flows through. */
import type { FlowFactors } from './gases.ts';
import { orificeConductanceM3PerS } from './orifice-conductance.ts';
import type { DuctSetup } from './rig-setup.ts';
import { tubeConductanceM3PerS } from './tube-conductance.ts';

export interface DuctPosition {
  readonly coreOut: boolean;
  /** 0 shut to 1 fully open. A valve that is partly open passes gas as an orifice of that share of the bore. */
  readonly opening: number;
}

/**
 * Tube, core and valve in series, 1/C = Σ 1/Cᵢ, times the number side by side, m³/s.
 * @param meanPa mean of the total pressures at both ends
 */
export function ductConductanceM3PerS(
  duct: Pick<DuctSetup, 'diameterM' | 'lengthM' | 'count' | 'coreDiameterM'>,
  { coreOut, opening }: DuctPosition,
  meanPa: number,
  factors: FlowFactors,
): number {
  if (opening <= 0) return 0;
  const { diameterM, lengthM, count, coreDiameterM } = duct;
  let resistance =
    1 / tubeConductanceM3PerS(diameterM, lengthM, meanPa, factors.viscous, factors.molecular);
  if (coreDiameterM !== null && !coreOut)
    resistance += orificeResistance(coreDiameterM, meanPa, factors);
  if (opening < 1) resistance += orificeResistance(diameterM * Math.sqrt(opening), meanPa, factors);
  return count / resistance;
}

function orificeResistance(diameterM: number, meanPa: number, { molecular }: FlowFactors): number {
  return 1 / (orificeConductanceM3PerS(diameterM, meanPa) * molecular);
}
