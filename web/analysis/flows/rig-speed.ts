/**
 * The pumping speed for air at the system, as far as the job sheet's figures of pump and hose tell it:
 * between a hose in slow viscous flow and the pump alone.
 *
 * A long tube lets through C = π·d⁴·p̄/(128·η·l), viscous and laminar (Hagen and Poiseuille; in any
 * vacuum handbook), and 1/S = 1/S_pump + 1/C. What flows faster than laminar, or as single molecules,
 * meets other resistances; ends and fittings resist as well, and so does a core that nobody took out.
 */
import { AIR_VISCOSITY_PA_S } from '../../../protocol/gas-constants.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import type { Estimate } from '../conclusions.ts';

/** Hose and core together may let through so much less than the tube alone. Settings of ours. */
const FITTINGS = 0.5;
const CORE_IN_THE_WAY = 0.15;
/** And so much more, since molecules slip along the wall. A setting of ours. */
const SLIP = 1.3;

/** @returns null where the pump's displacement or the hose is not known */
export function rigSpeedM3PerS(sheet: Sheet, pressurePa: number): Estimate | null {
  const { pumpDisplacementM3PerS: pump, hoseBoreM, hoseLengthM, hoseCount, core } = sheet;
  if (pump === null || hoseBoreM === null || hoseLengthM === null) return null;
  const ultimatePa = sheet.pumpUltimatePa ?? 0;
  if (pressurePa <= ultimatePa) return null;
  const perPa =
    ((hoseCount ?? 1) * Math.PI * hoseBoreM ** 4) / (128 * AIR_VISCOSITY_PA_S * hoseLengthM);
  const atSystem = (share: number) => throughBoth(pump, share * perPa, pressurePa, ultimatePa);
  const least = core === 'out' ? FITTINGS : FITTINGS * CORE_IN_THE_WAY;
  const [low, high] = [atSystem(least), atSystem(SLIP)];
  return { estimate: Math.sqrt(low * high), low, high };
}

/**
 * Where as much flows through the hose as the pump takes: with the inlet at q, c·(p² − q²)/2 = S·(q − u),
 * a square equation in q.
 */
function throughBoth(pump: number, perPa: number, pressurePa: number, ultimatePa: number): number {
  const half = pump / perPa;
  const inletPa = Math.sqrt(half ** 2 + pressurePa ** 2 + 2 * half * ultimatePa) - half;
  return (pump * Math.max(inletPa - ultimatePa, 0)) / pressurePa;
}
