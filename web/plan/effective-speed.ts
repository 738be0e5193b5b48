/**
 * How fast a rig pumps the far end of a system at one pressure, and which part of it holds that back. Pure.
 *
 * Pump, hose and core stand in series, so that their resistances (inverse speeds) add up:
 *
 *     1/S_eff = 1/S + 1/C_hose + 1/C_core + Σ f/C_line
 *
 * O. Levenspiel, Engineering Flow and Heat Exchange, p. 90, and any vacuum handbook. S is the pump's
 * speed at its own inlet, S·(1 − p_ultimate/p), C the conductance at the mean of the pressures at
 * both ends, and n hoses side by side have n times the conductance of one. Through a line
 * goes no more than the share f of all the gas that lies behind it.
 */
import { orificeConductanceM3PerS } from '../../simulators/physics/orifice-conductance.ts';
import { tubeConductanceM3PerS } from '../../simulators/physics/tube-conductance.ts';
import { CORE_OPENING_M } from './core-opening.ts';
import { farEndOf, type LineOnTheWay } from './far-end.ts';
import type { PlannedRig } from './planned-rig.ts';

export type RigPart = 'pump' | 'hose' | 'core' | 'line';

export interface EffectiveSpeed {
  /** At the far end of the system, m³/s. */
  readonly speedM3PerS: number;
  /** Share of the whole resistance, the largest first; adds up to 1. */
  readonly shares: readonly { readonly part: RigPart; readonly share: number }[];
}

/** Halvings of the interval in which a pressure lies: 2⁻⁵⁰, the end of a number's digits. */
const HALVINGS = 50;

/**
 * @param pressurePa at the far end of the system, or all over it where there is no line in the way
 * @returns null where the pump's ultimate pressure is no lower than that: nothing is pumped any more
 */
export function effectiveSpeed(rig: PlannedRig, pressurePa: number): EffectiveSpeed | null {
  if (!(pressurePa > rig.pumpUltimatePa)) return null;
  const lines = farEndOf(rig.far)?.lines ?? [];
  const { low: flowPaM3PerS } = halved(
    { low: 0, high: rig.pumpDisplacementM3PerS * (pressurePa - rig.pumpUltimatePa) },
    (flow) => flow <= pumpedPaM3PerS(rig, pressuresAt(rig, lines, pressurePa, flow).inletPa),
  );
  const { nearPa, inletPa } = pressuresAt(rig, lines, pressurePa, flowPaM3PerS);
  const { hose, core } = conductances(rig, (nearPa + inletPa) / 2);
  const through = (nearPa - inletPa) / flowPaM3PerS;
  const hoseShare = 1 / hose / (1 / hose + 1 / core);
  const whole = pressurePa / flowPaM3PerS;
  const resistances = [
    { part: 'pump', resistance: inletPa / flowPaM3PerS },
    { part: 'hose', resistance: through * hoseShare },
    { part: 'core', resistance: through * (1 - hoseShare) },
    { part: 'line', resistance: (pressurePa - nearPa) / flowPaM3PerS },
  ] as const;
  return {
    speedM3PerS: 1 / whole,
    shares: resistances
      .filter(({ resistance }) => resistance > 0)
      .map(({ part, resistance }) => ({ part, share: resistance / whole }))
      .sort((a, b) => b.share - a.share),
  };
}

interface Pressures {
  readonly nearPa: number;
  readonly inletPa: number;
}

/** Where a system's gas flows through line, core and hose at this rate: at the hose's end, and at the pump. */
function pressuresAt(
  rig: PlannedRig,
  lines: readonly LineOnTheWay[],
  pressurePa: number,
  flowPaM3PerS: number,
): Pressures {
  const nearPa = lines.reduce(
    (farPa, { boreM, lengthM, gasShare }) =>
      behind(farPa, flowPaM3PerS * gasShare, (meanPa) =>
        tubeConductanceM3PerS(boreM, lengthM, meanPa),
      ),
    pressurePa,
  );
  const inletPa = behind(nearPa, flowPaM3PerS, (meanPa) => {
    const { hose, core } = conductances(rig, meanPa);
    return 1 / (1 / hose + 1 / core);
  });
  return { nearPa, inletPa };
}

/** The pressure on the other side of what lets so much through; 0 where it can't. */
function behind(
  pressurePa: number,
  flowPaM3PerS: number,
  conductanceM3PerS: (meanPa: number) => number,
): number {
  return halved(
    { low: 0, high: pressurePa },
    (otherPa) =>
      conductanceM3PerS((pressurePa + otherPa) / 2) * (pressurePa - otherPa) > flowPaM3PerS,
  ).high;
}

/** Narrows an interval down to where `isBelow` turns from true to false. */
function halved({ low, high }: { low: number; high: number }, isBelow: (value: number) => boolean) {
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (low + high) / 2;
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
  return { low, high };
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
