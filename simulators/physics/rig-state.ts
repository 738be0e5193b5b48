/** What a simulated rig holds at a moment, and what has crossed its border. */
import { NO_GAS, perGas, totalOf, type Gas, type PerGas } from './gases.ts';
import { GAS_CONSTANT, WATER_KG_PER_MOL } from '../../protocol/gas-constants.ts';
import { puddleAt, type Puddle } from './puddle.ts';
import { pumpAtStart, type PumpState } from './pump.ts';
import type { RigSetup } from './rig-setup.ts';
import type { SectionSetup } from './section-setup.ts';
import { gasTemperatureK } from './surroundings.ts';

export interface SectionState {
  /** Gas in its volume. */
  readonly gasMol: PerGas<number>;
  /** What its reservoirs hold, in the order of the setup. */
  readonly reservoirMol: readonly number[];
  /** Free water; 0 mol where there is none. */
  readonly puddle: Puddle;
}

export interface RigState {
  readonly setup: RigSetup;
  readonly elapsedS: number;
  readonly sections: readonly SectionState[];
  readonly pump: PumpState;
  /** What came in through leaks and from the nitrogen's cylinder since the start. */
  readonly enteredMol: PerGas<number>;
  /** What the pump drew, less what came back through it. */
  readonly pumpedMol: PerGas<number>;
  /** Length of the integration's next step, s: carried along so that it needn't be found anew. */
  readonly stepS: number;
}

export function createRig(setup: RigSetup): RigState {
  return {
    setup,
    elapsedS: 0,
    sections: setup.sections.map((section) => {
      const molPerPa = gasCapacityMolPerPa(setup, section, 0);
      return {
        gasMol: perGas((gas) => section.startPa[gas] * molPerPa),
        reservoirMol: section.reservoirs.map(
          ({ capacityMolPerPa, startPa }) => capacityMolPerPa * startPa,
        ),
        puddle: puddleAt(
          (section.puddle?.waterKg ?? 0) / WATER_KG_PER_MOL,
          section.metalTemperatureK,
        ),
      };
    }),
    pump: pumpAtStart(setup.pump),
    enteredMol: NO_GAS,
    pumpedMol: NO_GAS,
    stepS: 0.01,
  };
}

/** Gas in a section per pascal at a time, mol/Pa (ideal gas). */
export function gasCapacityMolPerPa(
  { surroundings }: RigSetup,
  { volumeM3 }: SectionSetup,
  elapsedS: number,
): number {
  return volumeM3 / (GAS_CONSTANT * gasTemperatureK(surroundings, elapsedS));
}

/** Partial pressures in a section, Pa. */
export function partialPressuresPa(state: RigState, index: number): PerGas<number> {
  const section = state.sections[index];
  const setup = state.setup.sections[index];
  if (!section || !setup) throw new RangeError(`there is no section ${index}`);
  const molPerPa = gasCapacityMolPerPa(state.setup, setup, state.elapsedS);
  return perGas((gas) => section.gasMol[gas] / molPerPa);
}

/** Total pressure in a section, Pa. */
export function totalPressurePa(state: RigState, index: number): number {
  return totalOf(partialPressuresPa(state, index));
}

/** All there is of each gas in the rig: in the volumes, held and lying free, mol. */
export function contentMol({ setup, sections }: RigState): PerGas<number> {
  const held = (gas: Gas) =>
    sections.reduce((total, { gasMol, reservoirMol, puddle }, index) => {
      const reservoirs = setup.sections[index]?.reservoirs ?? [];
      return (
        total +
        gasMol[gas] +
        (gas === 'water' ? puddle.mol : 0) +
        reservoirMol.reduce(
          (sum, mol, place) => sum + (reservoirs[place]?.gas === gas ? mol : 0),
          0,
        )
      );
    }, 0);
  return perGas(held);
}

/** Whether there is, or could come to be, any refrigerant: most rigs hold none, and save its sums. */
export function knowsRefrigerant({ sections }: RigSetup): boolean {
  return sections.some(
    ({ startPa, reservoirs, inflows }) =>
      startPa.refrigerant > 0 ||
      reservoirs.some(({ gas }) => gas === 'refrigerant') ||
      inflows.some(({ from }) => from === 'charge'),
  );
}
