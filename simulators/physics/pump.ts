/**
 * A rotary vane pump: what it draws, how deep it gets, and what the water does to its oil.
 *
 * Compressed to atmospheric pressure, vapour stays vapour only up to its saturation pressure at the
 * pump's temperature; what is beyond condenses into the oil, and from there raises the ultimate
 * pressure. Air let in by the gas ballast carries more of it out (W. Gaede's principle, in vacuum
 * handbooks as the water vapour tolerance).
 */
import type { Controls } from './controls.ts';
import type { PerGas } from './gases.ts';
import { GAS_CONSTANT } from '../../protocol/gas-constants.ts';
import type { PumpSetup } from './pump-setup.ts';
import { waterVapourPressurePa } from './saturation.ts';
import { gasTemperatureK, type Surroundings } from './surroundings.ts';

export interface PumpState {
  /** Water in the oil. */
  readonly oilWaterMol: number;
  /** Dirt in the oil adds so much to the ultimate pressure, Pa. */
  readonly foulPa: number;
  /** Warmer than the surroundings, K. */
  readonly warmK: number;
  /** How long it has run on this battery, s. */
  readonly ranS: number;
}

export function pumpAtStart({ oil }: PumpSetup): PumpState {
  return {
    oilWaterMol: oil.waterStartPa * oil.waterMolPerPa,
    foulPa: oil.foulPa,
    warmK: 0,
    ranS: 0,
  };
}

/** How much longer the battery lasts, s; without end on mains. */
export function batteryLeftS({ batteryS }: PumpSetup, { ranS }: PumpState): number {
  return batteryS === null ? Infinity : Math.max(batteryS - ranS, 0);
}

export function isRunning(
  setup: PumpSetup,
  state: PumpState,
  { pumpOn }: Pick<Controls, 'pumpOn'>,
): boolean {
  return pumpOn && batteryLeftS(setup, state) > 0;
}

/**
 * Partial pressures at which it draws no more of each gas, Pa: below, gas flows back through it. Dry
 * gas comes through its seals and its oil, and through the open ballast; vapour out of the oil.
 */
export function ultimatePa(
  setup: PumpSetup,
  { oilWaterMol, foulPa, warmK }: PumpState,
  { ballastOpen }: Pick<Controls, 'ballastOpen'>,
): PerGas<number> {
  const coldShare = setup.runsWarmerK > 0 ? 1 - warmK / setup.runsWarmerK : 0;
  const cold = 1 + (setup.coldFactor - 1) * Math.max(coldShare, 0);
  return {
    air: setup.ultimatePa * cold + foulPa + (ballastOpen ? setup.ballastPa : 0),
    water: oilWaterMol / setup.oil.waterMolPerPa,
    refrigerant: 0,
  };
}

interface PumpStep {
  readonly controls: Controls;
  /** Of each gas; negative where it flowed back. */
  readonly drawnMolPerS: PerGas<number>;
  readonly surroundings: Surroundings;
  readonly elapsedS: number;
}

/** The pump at the end of a step. */
export function pumpAfter(
  setup: PumpSetup,
  state: PumpState,
  stepS: number,
  step: PumpStep,
): PumpState {
  const running = isRunning(setup, state, step.controls);
  const restK = running ? setup.runsWarmerK : 0;
  const warmK = restK + (state.warmK - restK) * Math.exp(-stepS / setup.warmingS);
  if (!running) return { ...state, warmK };
  const toleratedMolPerS = toleratedVapourMolPerS(setup, state, step);
  return {
    ...state,
    oilWaterMol: oilWaterAfter(setup, state, stepS, step.drawnMolPerS.water, toleratedMolPerS),
    warmK,
    ranS: state.ranS + stepS,
  };
}

/**
 * Vapour that can leave through the exhaust without condensing. There the pressure is atmospheric and
 * the vapour's share at most that of saturation pₛ at the pump's temperature; the ballast's air brings
 * its own, pₐ: vapour · (p − pₛ) = drawn dry gas · pₛ + ballast · (pₛ − pₐ). For pure vapour that is
 * Gaede's (B/S) · p (pₛ − pₐ)/(p − pₛ).
 */
function toleratedVapourMolPerS(
  setup: PumpSetup,
  { warmK }: PumpState,
  { controls, drawnMolPerS, surroundings, elapsedS }: PumpStep,
): number {
  const outsideK = gasTemperatureK(surroundings, elapsedS);
  const { atmospherePa, humidityPa } = surroundings;
  const ballastMolPerS = controls.ballastOpen
    ? (setup.ballastShare * setup.displacementM3PerS * atmospherePa) / (GAS_CONSTANT * outsideK)
    : 0;
  // The boiling oil of a pump at 100 °C would hold no water; it doesn't run so hot.
  const saturationPa = Math.min(waterVapourPressurePa(outsideK + warmK), 0.9 * atmospherePa);
  const dryMolPerS = Math.max(drawnMolPerS.air, 0) + Math.max(drawnMolPerS.refrigerant, 0);
  const carried = dryMolPerS * saturationPa + ballastMolPerS * (saturationPa - humidityPa);
  return Math.max(carried, 0) / (atmospherePa - saturationPa);
}

/** Implicit in the oil's own water, so that no long step takes out more than there is. */
function oilWaterAfter(
  { oil }: PumpSetup,
  { oilWaterMol }: PumpState,
  stepS: number,
  drawnMolPerS: number,
  toleratedMolPerS: number,
): number {
  const offeredMolPerS = Math.max(drawnMolPerS, 0);
  const givenBackMolPerS = Math.max(-drawnMolPerS, 0);
  const unhindered =
    (oilWaterMol - stepS * givenBackMolPerS) / (1 + stepS / oil.clearingS + stepS / oil.dryingS);
  if (offeredMolPerS + unhindered / oil.clearingS <= toleratedMolPerS) return unhindered;
  return (oilWaterMol + stepS * (drawnMolPerS - toleratedMolPerS)) / (1 + stepS / oil.dryingS);
}
