/**
 * Free water that evaporates, cools itself, freezes and goes: a pool with a heat content.
 *
 * The enthalpy counts from liquid water at the triple point; what leaves as vapour takes its own
 * enthalpy along. Freezing and the greater heat of sublimation follow from this without a switch.
 * Supercooling is left out: water freezes as soon as it is colder than the triple point.
 */
import {
  iceVapourPressurePa,
  liquidVapourPressurePa,
  TRIPLE_POINT_K,
  TRIPLE_POINT_PA,
} from '../../protocol/water.ts';
import { GAS_CONSTANT, WATER_KG_PER_MOL } from '../../protocol/gas-constants.ts';
import {
  EVAPORATION_J_PER_MOL,
  FUSION_J_PER_MOL,
  ICE_J_PER_MOL_K,
  LIQUID_J_PER_MOL_K,
  VAPOUR_J_PER_MOL_K,
} from './physical-constants.ts';
import type { PuddleSetup } from './section-setup.ts';

export interface Puddle {
  /** Liquid and ice together. */
  readonly mol: number;
  /** Against the same amount of liquid at the triple point. */
  readonly enthalpyJ: number;
}

export const NO_PUDDLE: Puddle = { mol: 0, enthalpyJ: 0 };

/** What a puddle may be, K: far wider than any that lies in a refrigeration system. */
const COLDEST_K = 180;
const HOTTEST_K = 450;

/** Less than a millionth of what there was at the start is no puddle any more. */
export function isLying(setup: PuddleSetup, puddle: Puddle): boolean {
  return puddle.mol > (1e-6 * setup.waterKg) / WATER_KG_PER_MOL;
}

/** False for what a step too long for it can leave behind: less than nothing, or an absurd temperature. */
export function isPossible(puddle: Puddle): boolean {
  if (puddle.mol === 0) return true;
  return (
    puddle.mol > 0 &&
    puddle.enthalpyJ >= puddleAt(puddle.mol, COLDEST_K).enthalpyJ &&
    puddle.enthalpyJ <= puddleAt(puddle.mol, HOTTEST_K).enthalpyJ
  );
}

/** Liquid (or, below the triple point, ice) of a temperature. */
export function puddleAt(mol: number, temperatureK: number): Puddle {
  const aboveK = temperatureK - TRIPLE_POINT_K;
  const perMol =
    aboveK >= 0 ? LIQUID_J_PER_MOL_K * aboveK : ICE_J_PER_MOL_K * aboveK - FUSION_J_PER_MOL;
  return { mol, enthalpyJ: mol * perMol };
}

/** Held within bounds, so that a step which has to be refused can be reckoned to its end. */
export function puddleTemperatureK({ mol, enthalpyJ }: Puddle): number {
  if (mol <= 0) return TRIPLE_POINT_K;
  const perMol = enthalpyJ / mol;
  const aboveK =
    perMol >= 0
      ? perMol / LIQUID_J_PER_MOL_K
      : Math.min(0, perMol + FUSION_J_PER_MOL) / ICE_J_PER_MOL_K;
  return Math.min(HOTTEST_K, Math.max(COLDEST_K, TRIPLE_POINT_K + aboveK));
}

/** Share of ice, 0 to 1. */
export function iceFraction({ mol, enthalpyJ }: Puddle): number {
  return mol <= 0 ? 0 : Math.min(1, Math.max(0, -enthalpyJ / mol / FUSION_J_PER_MOL));
}

/**
 * Evaporation over one implicit step of length `stepS`, linear in the vapour pressure at the step's
 * end: flow = conductance · (towardPa − vapour pressure), mol/s, negative for condensation.
 */
interface Evaporation {
  readonly conductanceMolPerPaS: number;
  readonly towardPa: number;
  /** The puddle at the step's end for the flow that came out. */
  after(flowMolPerS: number): Puddle;
}

/**
 * With K the Hertz–Knudsen conductance, U the heat conductance to the metal, c the heat capacity and
 * L the heat of evaporation, the temperature T₁ at the step's end obeys
 * c (T₁ − T₀) = h (U (T_metal − T₁) − L·flow), and flow = K (p(T₀) + p′ (T₁ − T₀) − vapour pressure).
 * Eliminating T₁ leaves a flow that is linear in the vapour pressure. While ice and liquid are
 * together the temperature stays (c is infinite).
 */
export function evaporationOver(
  stepS: number,
  setup: PuddleSetup,
  puddle: Puddle,
  metalTemperatureK: number,
): Evaporation {
  const temperatureK = puddleTemperatureK(puddle);
  const wetted = wettedShare(setup, puddle);
  const conductance = wetted * setup.areaM2 * setup.evaporationShare * hertzKnudsen(temperatureK);
  const heatWPerK = wetted * setup.metalConductanceWPerK;
  const heatOfVapour = EVAPORATION_J_PER_MOL + VAPOUR_J_PER_MOL_K * (temperatureK - TRIPLE_POINT_K);
  const latent = heatOfVapour - puddle.enthalpyJ / puddle.mol;
  const kelvinPerJoule = 1 / (puddle.mol * heatCapacityJPerMolK(puddle));

  const warmedK = stepS * kelvinPerJoule * heatWPerK * (metalTemperatureK - temperatureK);
  const damping = 1 + stepS * kelvinPerJoule * heatWPerK;
  const cooledKPerFlow = (stepS * kelvinPerJoule * latent) / damping;
  const { pressurePa, slopePaPerK } = saturation(temperatureK);
  const towardPa = pressurePa + (slopePaPerK * warmedK) / damping;
  return {
    conductanceMolPerPaS: Math.min(
      conductance / (1 + conductance * slopePaPerK * cooledKPerFlow),
      // A puddle gives no more than half of what it has: the rest is for the next, shorter step.
      puddle.mol / 2 / stepS / Math.max(towardPa, pressurePa),
    ),
    towardPa,
    after: (flowMolPerS) => {
      const endK = temperatureK + warmedK / damping - cooledKPerFlow * flowMolPerS;
      const heatW = heatWPerK * (metalTemperatureK - endK) - heatOfVapour * flowMolPerS;
      return {
        mol: puddle.mol - stepS * flowMolPerS,
        enthalpyJ: puddle.enthalpyJ + stepS * heatW,
      };
    },
  };
}

/** The last tenth of a puddle dries from its edges: surface and contact shrink with its root. */
function wettedShare(setup: PuddleSetup, puddle: Puddle): number {
  const startMol = setup.waterKg / WATER_KG_PER_MOL;
  return Math.min(1, Math.sqrt(puddle.mol / (0.1 * startMol)));
}

/** Greatest evaporation into a vacuum per area and pascal: 1/√(2πMRT), mol/(m²·s·Pa) (kinetic theory). */
function hertzKnudsen(temperatureK: number): number {
  return 1 / Math.sqrt(2 * Math.PI * WATER_KG_PER_MOL * GAS_CONSTANT * temperatureK);
}

function heatCapacityJPerMolK(puddle: Puddle): number {
  const ice = iceFraction(puddle);
  if (ice > 0 && ice < 1) return Infinity;
  return ice === 0 ? LIQUID_J_PER_MOL_K : ICE_J_PER_MOL_K;
}

/** Saturation pressure and its slope, from Clausius–Clapeyron with an ideal vapour: p′ = p L/(R T²). */
function saturation(temperatureK: number): { pressurePa: number; slopePaPerK: number } {
  const frozen = temperatureK < TRIPLE_POINT_K;
  const pressurePa = frozen
    ? iceVapourPressurePa(temperatureK)
    : temperatureK === TRIPLE_POINT_K
      ? TRIPLE_POINT_PA
      : liquidVapourPressurePa(temperatureK);
  const latent = EVAPORATION_J_PER_MOL + (frozen ? FUSION_J_PER_MOL : 0);
  return { pressurePa, slopePaPerK: (pressurePa * latent) / (GAS_CONSTANT * temperatureK ** 2) };
}
