/**
 * One step of second order: two implicit Euler steps of half the length, improved by one of the full
 * length (Richardson extrapolation, 2·fine − coarse). It damps fast processes however long the step
 * is (its stability function falls to 0 at infinity), and keeps every balance that Euler keeps, being
 * a sum of Euler results with weights that add up to 1.
 * Where a hose empties much faster than the step is long, the order sinks towards the first, as it
 * does for any such method; the error then is small all the same, and is watched.
 * Reference: Hairer, Wanner, Solving Ordinary Differential Equations II, section IV.9.
 */
import { eulerStep } from './euler-step.ts';
import { isPossible } from './puddle.ts';
import type { Controls, RigState, SectionState } from './rig-state.ts';

/** Gas that nobody measures: in 1 L, 1e-9 · 8.314 · 293 / 1e-3 = 0.002 Pa. */
const NEGLIGIBLE_MOL = 1e-9;

interface ExtrapolatedStep {
  /** Of second order; in rare cases with negative contents: see `isPhysical`. */
  readonly state: RigState;
  /** The two half steps alone: of first order, never negative. */
  readonly fine: RigState;
  /** Largest difference of a gas between the full and the two half steps, relative to all the gas there. */
  readonly relativeError: number;
}

export function extrapolatedStep(
  state: RigState,
  stepS: number,
  controls: Controls,
): ExtrapolatedStep {
  const coarse = eulerStep(state, stepS, controls);
  const fine = eulerStep(eulerStep(state, stepS / 2, controls), stepS / 2, controls);
  return {
    state: {
      ...fine,
      sections: fine.sections.map((section, index) =>
        improvedSection(section, coarse.sections[index] ?? section),
      ),
      leakedInAirMol: improved(fine.leakedInAirMol, coarse.leakedInAirMol),
      pumpedAirMol: improved(fine.pumpedAirMol, coarse.pumpedAirMol),
      pumpedWaterMol: improved(fine.pumpedWaterMol, coarse.pumpedWaterMol),
    },
    fine,
    relativeError: Math.max(
      ...fine.sections.map((section, index) => gasDifference(section, coarse.sections[index])),
    ),
  };
}

/** No content is negative, no puddle absurd. */
export function isPhysical({ sections }: RigState): boolean {
  return sections.every(
    ({ airMol, waterMol, reservoirMol, puddle }) =>
      airMol >= 0 && waterMol >= 0 && isPossible(puddle) && reservoirMol.every((mol) => mol >= 0),
  );
}

function gasDifference(fine: SectionState, coarse: SectionState = fine): number {
  const airMol = Math.abs(fine.airMol - coarse.airMol);
  const waterMol = Math.abs(fine.waterMol - coarse.waterMol);
  return Math.max(airMol, waterMol) / (fine.airMol + fine.waterMol + NEGLIGIBLE_MOL);
}

function improvedSection(fine: SectionState, coarse: SectionState): SectionState {
  return {
    airMol: improved(fine.airMol, coarse.airMol),
    waterMol: improved(fine.waterMol, coarse.waterMol),
    reservoirMol: fine.reservoirMol.map((mol, index) =>
      improved(mol, coarse.reservoirMol[index] ?? mol),
    ),
    puddle: {
      mol: improved(fine.puddle.mol, coarse.puddle.mol),
      enthalpyJ: improved(fine.puddle.enthalpyJ, coarse.puddle.enthalpyJ),
    },
  };
}

function improved(fine: number, coarse: number): number {
  return 2 * fine - coarse;
}
