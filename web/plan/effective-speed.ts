/**
 * How fast a rig pumps the system at one pressure, and which part of it holds that back. Pure.
 *
 * Pump, hose and core stand in series, so that their resistances (inverse speeds) add up:
 *
 *     1/S_eff = 1/S + 1/C_hose + 1/C_core
 *
 * O. Levenspiel, Engineering Flow and Heat Exchange, p. 90, and any vacuum handbook. S is the pump's
 * speed at its own inlet, S·(1 − p_ultimate/p), C the conductance at the mean of the pressures at
 * both ends, and n hoses side by side have n times the conductance of one.
 */
import { orificeConductanceM3PerS } from '../../simulators/physics/orifice-conductance.ts';
import { tubeConductanceM3PerS } from '../../simulators/physics/tube-conductance.ts';
import { CORE_OPENING_M } from './core-opening.ts';
import type { PlannedRig } from './planned-rig.ts';

export type RigPart = 'pump' | 'hose' | 'core';

export interface EffectiveSpeed {
  /** At the system, m³/s. */
  readonly speedM3PerS: number;
  /** Share of the whole resistance, the largest first; adds up to 1. */
  readonly shares: readonly { readonly part: RigPart; readonly share: number }[];
}

/** Halvings of the interval in which the inlet pressure lies: 2⁻⁵⁰, the end of a number's digits. */
const HALVINGS = 50;

/**
 * @param pressurePa in the system
 * @returns null where the pump's ultimate pressure is no lower than that: nothing is pumped any more
 */
export function effectiveSpeed(rig: PlannedRig, pressurePa: number): EffectiveSpeed | null {
  if (!(pressurePa > rig.pumpUltimatePa)) return null;
  const inletPa = inletPressurePa(rig, pressurePa);
  const flowPaM3PerS = pumpedPaM3PerS(rig, inletPa);
  const { hose, core } = conductances(rig, (pressurePa + inletPa) / 2);
  const whole = pressurePa / flowPaM3PerS;
  const resistances = [
    { part: 'pump', resistance: inletPa / flowPaM3PerS },
    { part: 'hose', resistance: 1 / hose },
    { part: 'core', resistance: 1 / core },
  ] as const;
  return {
    speedM3PerS: 1 / whole,
    shares: resistances
      .filter(({ resistance }) => resistance > 0)
      .map(({ part, resistance }) => ({ part, share: resistance / whole }))
      .sort((a, b) => b.share - a.share),
  };
}

/** Where as much flows through the hose as the pump takes. */
function inletPressurePa(rig: PlannedRig, pressurePa: number): number {
  let low = rig.pumpUltimatePa;
  let high = pressurePa;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const inletPa = (low + high) / 2;
    const { hose, core } = conductances(rig, (pressurePa + inletPa) / 2);
    const throughHose = (pressurePa - inletPa) / (1 / hose + 1 / core);
    if (throughHose > pumpedPaM3PerS(rig, inletPa)) low = inletPa;
    else high = inletPa;
  }
  return (low + high) / 2;
}

function pumpedPaM3PerS({ pumpDisplacementM3PerS, pumpUltimatePa }: PlannedRig, inletPa: number) {
  return pumpDisplacementM3PerS * (inletPa - pumpUltimatePa);
}

/** Of all hoses together and of all their cores, m³/s; infinite where there is no core in the way. */
function conductances(rig: PlannedRig, meanPa: number): { hose: number; core: number } {
  const { hoseCount, hoseBoreM, hoseLengthM, coreInPlace } = rig;
  return {
    hose: hoseCount * tubeConductanceM3PerS(hoseBoreM, hoseLengthM, meanPa),
    core: coreInPlace ? hoseCount * orificeConductanceM3PerS(CORE_OPENING_M, meanPa) : Infinity,
  };
}
