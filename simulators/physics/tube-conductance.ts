/** Flow conductance of a long round tube for air, from viscous through transitional to molecular flow. */

/**
 * Conductance of a tube for air at 20 °C, m³/s (Knudsen's formula as given in standard vacuum
 * handbooks, from memory):
 *
 *     C = 135 d⁴/l · p̄ + 12.1 d³/l · (1 + 192 d p̄)/(1 + 237 d p̄)      [L/s; cm; mbar]
 *
 * In SI, 1 cm = 10⁻² m, 1 mbar = 10² Pa and 1 L/s = 10⁻³ m³/s give
 * 135 · (10²)⁴/10² · 10⁻² · 10⁻³ = 1350 and 12.1 · (10²)³/10² · 10⁻³ = 121,
 * and d·p̄ keeps its number, since 10² · 10⁻² = 1.
 *
 * It holds for laminar flow in a tube much longer than wide. Near atmospheric pressure the flow is
 * turbulent and the formula gives too much; there the pump limits, so that it hardly matters.
 *
 * @param diameterM inner diameter
 * @param lengthM length
 * @param meanPa mean of the pressures at both ends
 * @param viscousFactor viscosity of air over that of the gas that flows; 1 for air
 * @param molecularFactor square root of air's molar mass over that of the gas; 1 for air
 */
export function tubeConductanceM3PerS(
  diameterM: number,
  lengthM: number,
  meanPa: number,
  viscousFactor = 1,
  molecularFactor = 1,
): number {
  const viscous = ((1350 * diameterM ** 4) / lengthM) * meanPa;
  const dp = diameterM * meanPa;
  const molecular = ((121 * diameterM ** 3) / lengthM) * ((1 + 192 * dp) / (1 + 237 * dp));
  return viscous * viscousFactor + molecular * molecularFactor;
}
