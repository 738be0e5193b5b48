/** The gases that the model tells apart, and how each flows. */
import { AIR_KG_PER_MOL, WATER_KG_PER_MOL } from '../../protocol/gas-constants.ts';

/**
 * `air` is any dry gas: air, or the nitrogen that a vacuum is broken with, which flows alike within
 * two per cent. `refrigerant` is what comes out of oil or past a service valve.
 */
export const GASES = ['air', 'water', 'refrigerant'] as const;
export type Gas = (typeof GASES)[number];
export type PerGas<T> = Readonly<Record<Gas, T>>;

export function perGas<T>(of: (gas: Gas) => T): PerGas<T> {
  return { air: of('air'), water: of('water'), refrigerant: of('refrigerant') };
}

export const NO_GAS: PerGas<number> = perGas(() => 0);

export function totalOf(amounts: PerGas<number>): number {
  return amounts.air + amounts.water + amounts.refrigerant;
}

/**
 * Molar mass of the refrigerant that the model knows, kg/mol: that of R-32, CH₂F₂ (from the atomic
 * masses: 12.011 + 2·1.008 + 2·18.998).
 */
const REFRIGERANT_KG_PER_MOL = 0.052024;

/** Viscosity of air over that of each gas near 20 °C: 18.2, 9.7 and 12.4 µPa·s, from memory. */
const AIR_OVER_VISCOSITY: PerGas<number> = { air: 1, water: 18.2 / 9.7, refrigerant: 18.2 / 12.4 };

/** How much faster than air's molecules those of each gas are: the root of the ratio of masses. */
const SPEED_OVER_AIR: PerGas<number> = {
  air: 1,
  water: Math.sqrt(AIR_KG_PER_MOL / WATER_KG_PER_MOL),
  refrigerant: Math.sqrt(AIR_KG_PER_MOL / REFRIGERANT_KG_PER_MOL),
};

/** By what a conductance for air is to be multiplied for another gas. */
export interface FlowFactors {
  readonly viscous: number;
  readonly molecular: number;
}

/**
 * For a mixture, viscosity and molecular speed are averaged by mole fraction (crude: real mixtures
 * differ by some per cent).
 * @param amounts in any unit: only their shares count; nothing at all counts as air
 */
export function flowFactorsOf(amounts: PerGas<number>): FlowFactors {
  const total = totalOf(amounts);
  if (!(total > 0)) return { viscous: 1, molecular: 1 };
  return {
    viscous:
      total /
      (amounts.air / AIR_OVER_VISCOSITY.air +
        amounts.water / AIR_OVER_VISCOSITY.water +
        amounts.refrigerant / AIR_OVER_VISCOSITY.refrigerant),
    molecular:
      (amounts.air * SPEED_OVER_AIR.air +
        amounts.water * SPEED_OVER_AIR.water +
        amounts.refrigerant * SPEED_OVER_AIR.refrigerant) /
      total,
  };
}
