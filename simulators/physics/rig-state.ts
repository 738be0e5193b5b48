/** What a simulated rig holds at a moment, and what has crossed its border. */
import { GAS_CONSTANT, WATER_KG_PER_MOL } from './physical-constants.ts';
import { puddleAt } from './puddle.ts';
import type { Puddle } from './puddle.ts';
import type { RigSetup, SectionSetup } from './rig-setup.ts';

export interface SectionState {
  /** Gas in its volume. */
  readonly airMol: number;
  readonly waterMol: number;
  /** Water in its reservoirs, in the order of the setup. */
  readonly reservoirMol: readonly number[];
  /** Free water; 0 mol where there is none. */
  readonly puddle: Puddle;
}

export interface RigState {
  readonly setup: RigSetup;
  readonly elapsedS: number;
  readonly sections: readonly SectionState[];
  /** Net of what came in (+) and went out (−) since the start. */
  readonly leakedInAirMol: number;
  readonly pumpedAirMol: number;
  readonly pumpedWaterMol: number;
  /** Length of the integration's next step, s: carried along so that it needn't be found anew. */
  readonly stepS: number;
}

/** What the technician has in hand. */
export interface Controls {
  readonly pumpOn: boolean;
  readonly ballastOpen: boolean;
  /** The isolation valve is shut. */
  readonly isolated: boolean;
}

export function createRig(setup: RigSetup): RigState {
  return {
    setup,
    elapsedS: 0,
    sections: setup.sections.map((section) => {
      const molPerPa = gasCapacityMolPerPa(setup, section);
      return {
        airMol: section.airPa * molPerPa,
        waterMol: section.waterPa * molPerPa,
        reservoirMol: section.reservoirs.map(
          ({ capacityMolPerPa, startPa }) => capacityMolPerPa * startPa,
        ),
        puddle: puddleAt(
          (section.puddle?.waterKg ?? 0) / WATER_KG_PER_MOL,
          section.metalTemperatureK,
        ),
      };
    }),
    leakedInAirMol: 0,
    pumpedAirMol: 0,
    pumpedWaterMol: 0,
    stepS: 0.01,
  };
}

/** Gas in a section per pascal, mol/Pa (ideal gas). */
export function gasCapacityMolPerPa(setup: RigSetup, section: SectionSetup): number {
  return section.volumeM3 / (GAS_CONSTANT * setup.gasTemperatureK);
}

/** Total pressure in a section, Pa. */
export function totalPressurePa(state: RigState, index: number): number {
  const section = state.sections[index];
  const setup = state.setup.sections[index];
  if (!section || !setup) throw new RangeError(`there is no section ${index}`);
  return (section.airMol + section.waterMol) / gasCapacityMolPerPa(state.setup, setup);
}

/** All water in the rig: vapour, held and free, mol. */
export function waterInRigMol(state: RigState): number {
  return state.sections.reduce(
    (total, { waterMol, reservoirMol, puddle }) =>
      total + waterMol + puddle.mol + reservoirMol.reduce((sum, mol) => sum + mol, 0),
    0,
  );
}

/** All air in the rig, mol. */
export function airInRigMol(state: RigState): number {
  return state.sections.reduce((total, { airMol }) => total + airMol, 0);
}
