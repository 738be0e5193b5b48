/** What gives gas to a section or takes it, within one implicit step. */
import type { Gas } from './gases.ts';
import { GAS_CONSTANT } from '../../protocol/gas-constants.ts';
import { evaporationOver, isLying, NO_PUDDLE } from './puddle.ts';
import type { SectionState } from './rig-state.ts';
import { waterVapourPressurePa } from './saturation.ts';
import type { SectionSetup } from './section-setup.ts';

/** Flow into the volume = conductance · (toward − partial pressure at the step's end), mol/s. */
export interface Exchange {
  readonly gas: Gas;
  readonly conductanceMolPerPaS: number;
  readonly towardPa: number;
}

export interface SectionExchanges {
  readonly exchanges: readonly Exchange[];
  /** The last trace of a puddle goes all at once, mol/s of water. */
  readonly lastTraceMolPerS: number;
  /** What remains outside the gas, for the flows that came out: one for each exchange, in order. */
  readonly after: (
    flowsMolPerS: readonly number[],
  ) => Pick<SectionState, 'reservoirMol' | 'puddle'>;
}

/** @param warmedK how much warmer the metal is than at the start */
export function exchangesOver(
  stepS: number,
  setup: SectionSetup,
  section: SectionState,
  warmedK: number,
): SectionExchanges {
  const metalK = setup.metalTemperatureK + warmedK;
  const reservoirs = setup.reservoirs.map((reservoir, place): Exchange => {
    const capacityMolPerPa =
      reservoir.capacityMolPerPa / volatility(reservoir.gas, setup.metalTemperatureK, metalK);
    return {
      gas: reservoir.gas,
      // Implicit: the pressure of balance follows the content to the step's end.
      conductanceMolPerPaS: capacityMolPerPa / (reservoir.exchangeS + stepS),
      towardPa: (section.reservoirMol[place] ?? 0) / capacityMolPerPa,
    };
  });
  const evaporation =
    setup.puddle && isLying(setup.puddle, section.puddle)
      ? evaporationOver(stepS, setup.puddle, section.puddle, metalK)
      : null;
  return {
    exchanges: evaporation ? [...reservoirs, { gas: 'water', ...evaporation }] : reservoirs,
    lastTraceMolPerS: evaporation ? 0 : section.puddle.mol / stepS,
    after: (flows) => ({
      reservoirMol: section.reservoirMol.map((mol, place) => mol - stepS * (flows[place] ?? 0)),
      puddle: evaporation ? evaporation.after(flows[reservoirs.length] ?? 0) : NO_PUDDLE,
    }),
  };
}

/** Heat that a refrigerant takes to leave oil, J/mol: about its heat of evaporation; from memory. */
const REFRIGERANT_FROM_OIL_J_PER_MOL = 20_000;

/**
 * How much higher the pressure of balance is for the same content than at the start. Adsorbed and
 * dissolved water is bound about as tightly as in water itself.
 */
function volatility(gas: Gas, startK: number, nowK: number): number {
  if (startK === nowK) return 1;
  switch (gas) {
    case 'air':
      return 1;
    case 'water':
      return waterVapourPressurePa(nowK) / waterVapourPressurePa(startK);
    case 'refrigerant':
      return Math.exp((REFRIGERANT_FROM_OIL_J_PER_MOL / GAS_CONSTANT) * (1 / startK - 1 / nowK));
  }
}
