/**
 * One step of second order: two implicit Euler steps of half the length, improved by one of the full
 * length (Richardson extrapolation, 2·fine − coarse). It damps fast processes however long the step
 * is (its stability function falls to 0 at infinity), and keeps every balance that Euler keeps, being
 * a sum of Euler results with weights that add up to 1.
 * Where a hose empties much faster than the step is long, the order sinks towards the first, as it
 * does for any such method; the error then is small all the same, and is watched.
 * Reference: Hairer, Wanner, Solving Ordinary Differential Equations II, section IV.9.
 */
import { conditionsOf, eulerStep } from './euler-step.ts';
import type { Controls } from './controls.ts';
import { GASES, perGas, totalOf, type PerGas } from './gases.ts';
import { isPossible } from './puddle.ts';
import type { PumpState } from './pump.ts';
import type { RigState, SectionState } from './rig-state.ts';

/** Gas that nobody measures: in 1 L, 1e-9 · 8.314 · 293 / 1e-3 = 0.002 Pa. */
const NEGLIGIBLE_MOL = 1e-9;

interface ExtrapolatedStep {
  /** Of second order; in rare cases with negative contents: see `isPhysical`. */
  readonly state: RigState;
  /** The two half steps alone: of first order, never negative. */
  readonly fine: RigState;
  /**
   * Largest difference of a gas between the full and the two half steps, relative to all the gas there.
   * What changes in walls, water and pump shows in it: the second half step starts from it.
   */
  readonly relativeError: number;
}

export function extrapolatedStep(
  state: RigState,
  stepS: number,
  controls: Controls,
): ExtrapolatedStep {
  const now = conditionsOf(state, controls);
  const coarse = eulerStep(state, stepS, now);
  const half = eulerStep(state, stepS / 2, now);
  const fine = eulerStep(half, stepS / 2, conditionsOf(half, controls));
  return {
    state: {
      ...fine,
      sections: fine.sections.map((section, index) =>
        improvedSection(section, coarse.sections[index] ?? section),
      ),
      pump: improvedPump(fine.pump, coarse.pump),
      enteredMol: improvedGas(fine.enteredMol, coarse.enteredMol),
      pumpedMol: improvedGas(fine.pumpedMol, coarse.pumpedMol),
    },
    fine,
    relativeError: Math.max(
      ...fine.sections.map((section, index) => gasDifference(section, coarse.sections[index])),
    ),
  };
}

/** No content is negative, no puddle absurd. */
export function isPhysical({ sections, pump }: RigState): boolean {
  return (
    pump.oilWaterMol >= 0 &&
    sections.every(
      ({ gasMol, reservoirMol, puddle }) =>
        GASES.every((gas) => gasMol[gas] >= 0) &&
        isPossible(puddle) &&
        reservoirMol.every((mol) => mol >= 0),
    )
  );
}

function gasDifference(fine: SectionState, coarse: SectionState = fine): number {
  const differences = GASES.map((gas) => Math.abs(fine.gasMol[gas] - coarse.gasMol[gas]));
  return Math.max(...differences) / (totalOf(fine.gasMol) + NEGLIGIBLE_MOL);
}

function improvedSection(fine: SectionState, coarse: SectionState): SectionState {
  return {
    gasMol: improvedGas(fine.gasMol, coarse.gasMol),
    reservoirMol: fine.reservoirMol.map((mol, index) =>
      improved(mol, coarse.reservoirMol[index] ?? mol),
    ),
    puddle: {
      mol: improved(fine.puddle.mol, coarse.puddle.mol),
      enthalpyJ: improved(fine.puddle.enthalpyJ, coarse.puddle.enthalpyJ),
    },
  };
}

function improvedPump(fine: PumpState, coarse: PumpState): PumpState {
  return {
    oilWaterMol: improved(fine.oilWaterMol, coarse.oilWaterMol),
    foulPa: fine.foulPa,
    warmK: improved(fine.warmK, coarse.warmK),
    ranS: fine.ranS,
  };
}

function improvedGas(fine: PerGas<number>, coarse: PerGas<number>): PerGas<number> {
  return perGas((gas) => improved(fine[gas], coarse[gas]));
}

function improved(fine: number, coarse: number): number {
  return 2 * fine - coarse;
}
