/** What passes a round bore: textbook figures for air at 20 °C, molecular and viscous flow added. */
import type { Bore } from './rig.ts';

const MOLECULAR_M_PER_S = 121;
const VISCOUS_PER_PA_S = 1350;

/** @returns m³/s */
export function conductance({ diameterM, lengthM }: Bore, meanPa: number): number {
  const wide = diameterM ** 3 / lengthM;
  return wide * (MOLECULAR_M_PER_S + VISCOUS_PER_PA_S * diameterM * meanPa);
}
