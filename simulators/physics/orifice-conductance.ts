/** Flow conductance of a valve core or any other short narrow place. */

/** Molecular flow of air at 20 °C: 11.6 L/s per cm² = 116 m³/s per m² (vacuum handbooks, from memory). */
const MOLECULAR_M_PER_S = 116;
/** Choked viscous flow of air at 20 °C: 20 L/s per cm² = 200 m³/s per m² (the same, from memory). */
const CHOKED_M_PER_S = 200;
/**
 * Where viscous takes over from molecular flow: diameter times pressure of 10⁻² mbar·cm to
 * 0.6 mbar·cm (the same, from memory); their geometric mean, 0.077 mbar·cm = 0.077 Pa·m.
 */
const CHANGEOVER_PA_M = 0.077;

/**
 * Conductance of an orifice for air, m³/s. Simplified: with a small pressure difference viscous flow
 * through an orifice meets even less resistance than choked flow, so that the core's share of the
 * resistance is overstated where it is small anyway.
 */
export function orificeConductanceM3PerS(diameterM: number, meanPa: number): number {
  const areaM2 = (Math.PI / 4) * diameterM ** 2;
  const viscousShare = (diameterM * meanPa) / (diameterM * meanPa + CHANGEOVER_PA_M);
  return areaM2 * (MOLECULAR_M_PER_S + (CHOKED_M_PER_S - MOLECULAR_M_PER_S) * viscousShare);
}
