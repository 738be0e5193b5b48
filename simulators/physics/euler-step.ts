/**
 * One implicit Euler step of the whole rig: of first order, stable for any length, and exact in its
 * bookkeeping, since each flow is worked out once and taken from one side and given to the other.
 *
 * Conductances and the like are those of the step's beginning. Each gas flows by its own difference
 * of partial pressure with the conductance of the mixture: for the total pressure that is the same
 * as bulk flow; what it leaves out is that a stream of vapour holds back air that drifts against it.
 */
import { ductConductanceM3PerS } from './duct-conductance.ts';
import { leakInflowPaM3PerS } from './leak-inflow.ts';
import { GAS_CONSTANT } from './physical-constants.ts';
import { evaporationOver, isLying, NO_PUDDLE } from './puddle.ts';
import type { SectionSetup } from './rig-setup.ts';
import { gasCapacityMolPerPa, totalPressurePa } from './rig-state.ts';
import type { Controls, RigState, SectionState } from './rig-state.ts';
import { solveLinear } from './solve-linear.ts';

/** Something in a section that gives or takes vapour: flow = conductance · (toward − pressure). */
interface Exchange {
  readonly conductanceMolPerPaS: number;
  readonly towardPa: number;
}

/** A duct, by the positions of its ends. */
interface Passage {
  readonly from: number;
  readonly to: number;
  readonly molPerPaS: number;
}

interface Surroundings {
  readonly stepS: number;
  readonly capacities: readonly number[];
  readonly passages: readonly Passage[];
  /** The pump's section; it draws S·(p − ultimate) of each gas. */
  readonly pumpSection: number;
  readonly pumpMolPerPaS: number;
}

export function eulerStep(state: RigState, stepS: number, controls: Controls): RigState {
  const { setup, sections } = state;
  const { pump } = setup;
  const molPerPaM3 = 1 / (GAS_CONSTANT * setup.gasTemperatureK);
  const surroundings: Surroundings = {
    stepS,
    capacities: setup.sections.map((section) => gasCapacityMolPerPa(setup, section)),
    passages: passagesOf(state, controls, molPerPaM3),
    pumpSection: pump.section,
    pumpMolPerPaS: controls.pumpOn ? pump.displacementM3PerS * molPerPaM3 : 0,
  };

  const leaks = setup.sections.map(({ leakPaM3PerS }, index) => {
    const inside = totalPressurePa(state, index);
    const throughPump = index === pump.section && !controls.pumpOn ? pump.stoppedInflowPaM3PerS : 0;
    return molPerPaM3 * leakInflowPaM3PerS(leakPaM3PerS + throughPump, inside);
  });
  const ultimate = ultimatePressures(state, controls, totalPressurePa(state, pump.section));
  const airPa = pressuresAfter(
    surroundings,
    sections.map(({ airMol }) => airMol),
    sections.map(() => []),
    leaks,
    ultimate.airPa,
  );

  const dried = sections.map((section, index) =>
    withExchanges(section, setup.sections[index], stepS),
  );
  const waterPa = pressuresAfter(
    surroundings,
    sections.map(({ waterMol }) => waterMol),
    dried.map(({ exchanges }) => exchanges),
    dried.map(({ lastTraceMolPerS }) => lastTraceMolPerS),
    ultimate.waterPa,
  );

  const airIn = netFlows(surroundings, airPa, ultimate.airPa);
  const waterIn = netFlows(surroundings, waterPa, ultimate.waterPa);
  return {
    ...state,
    elapsedS: state.elapsedS + stepS,
    sections: dried.map(({ section, finish, exchanges, lastTraceMolPerS }, index) => {
      const pressure = at(waterPa, index);
      const flows = exchanges.map(
        ({ conductanceMolPerPaS, towardPa }) => conductanceMolPerPaS * (towardPa - pressure),
      );
      return {
        airMol: section.airMol + stepS * (at(airIn.gains, index) + at(leaks, index)),
        waterMol:
          section.waterMol +
          stepS * (at(waterIn.gains, index) + sum(flows, (flow) => flow) + lastTraceMolPerS),
        ...finish(flows),
      };
    }),
    leakedInAirMol: state.leakedInAirMol + stepS * sum(leaks, (leak) => leak),
    pumpedAirMol: state.pumpedAirMol + stepS * airIn.pumped,
    pumpedWaterMol: state.pumpedWaterMol + stepS * waterIn.pumped,
  };
}

/**
 * The pump's net flow S·(p − ultimate) shared out among the gases, so that each has a linear law of
 * its own. Above its ultimate pressure the pump takes the gas as it comes; below, air flows back
 * through it, as on opening the ballast at depth.
 */
function ultimatePressures(
  { setup: { pump }, sections }: RigState,
  { ballastOpen }: Controls,
  presentPa: number,
): { airPa: number; waterPa: number } {
  const ultimatePa = pump.ultimatePa + (ballastOpen ? pump.ballastPa : 0);
  const { airMol, waterMol } = at(sections, pump.section);
  const waterShare = presentPa > ultimatePa ? waterMol / (airMol + waterMol) : 0;
  return { airPa: ultimatePa * (1 - waterShare), waterPa: ultimatePa * waterShare };
}

function passagesOf(state: RigState, controls: Controls, molPerPaM3: number): Passage[] {
  return state.setup.ducts
    .filter(({ isolationValve }) => !(isolationValve && controls.isolated))
    .map((duct) => {
      const [from, to] = duct.between;
      const meanPa = (totalPressurePa(state, from) + totalPressurePa(state, to)) / 2;
      const water = at(state.sections, from).waterMol + at(state.sections, to).waterMol;
      const air = at(state.sections, from).airMol + at(state.sections, to).airMol;
      const waterFraction = water + air > 0 ? water / (water + air) : 0;
      return {
        from,
        to,
        molPerPaS: molPerPaM3 * ductConductanceM3PerS(duct, meanPa, waterFraction),
      };
    });
}

/** A section's water outside its gas, ready for the step: what gives vapour, and what remains of it. */
function withExchanges(section: SectionState, setup: SectionSetup | undefined, stepS: number) {
  if (!setup) throw new RangeError('a section lacks its setup');
  const reservoirs = setup.reservoirs.map(({ capacityMolPerPa, exchangeS }, index): Exchange => ({
    // Implicit: the pressure of balance follows the content to the step's end.
    conductanceMolPerPaS: capacityMolPerPa / (exchangeS + stepS),
    towardPa: at(section.reservoirMol, index) / capacityMolPerPa,
  }));
  const evaporation =
    setup.puddle && isLying(setup.puddle, section.puddle)
      ? evaporationOver(stepS, setup.puddle, section.puddle, setup.metalTemperatureK)
      : null;
  return {
    section,
    exchanges: evaporation ? [...reservoirs, evaporation] : reservoirs,
    /** The last trace of a puddle goes all at once, mol/s. */
    lastTraceMolPerS: evaporation ? 0 : section.puddle.mol / stepS,
    finish: (flows: readonly number[]): Pick<SectionState, 'reservoirMol' | 'puddle'> => ({
      reservoirMol: section.reservoirMol.map((mol, index) => mol - stepS * at(flows, index)),
      puddle: evaporation ? evaporation.after(at(flows, reservoirs.length)) : NO_PUDDLE,
    }),
  };
}

/** Partial pressures of one gas at the step's end, Pa: a linear system, one row a section. */
function pressuresAfter(
  { stepS, capacities, passages, pumpSection, pumpMolPerPaS }: Surroundings,
  gasMol: readonly number[],
  exchanges: readonly (readonly Exchange[])[],
  inflows: readonly number[],
  ultimatePa: number,
): number[] {
  const matrix = capacities.map((_, row) =>
    capacities.map((capacity, column) => {
      if (row !== column) return -stepS * sum(passages, (duct) => joins(duct, row, column));
      const outward =
        sum(passages, (duct) => (duct.from === row || duct.to === row ? duct.molPerPaS : 0)) +
        sum(at(exchanges, row), ({ conductanceMolPerPaS }) => conductanceMolPerPaS) +
        (row === pumpSection ? pumpMolPerPaS : 0);
      return capacity + stepS * outward;
    }),
  );
  const right = gasMol.map((mol, row) => {
    const inward =
      at(inflows, row) +
      sum(at(exchanges, row), (exchange) => exchange.conductanceMolPerPaS * exchange.towardPa) +
      (row === pumpSection ? pumpMolPerPaS * ultimatePa : 0);
    return mol + stepS * inward;
  });
  return solveLinear(matrix, right);
}

/** What each section gains through ducts and pump, mol/s, and what the pump takes of it. */
function netFlows(
  { passages, pumpSection, pumpMolPerPaS }: Surroundings,
  pressuresPa: readonly number[],
  ultimatePa: number,
): { gains: readonly number[]; pumped: number } {
  const gains = pressuresPa.map(() => 0);
  for (const { from, to, molPerPaS } of passages) {
    const flow = molPerPaS * (at(pressuresPa, from) - at(pressuresPa, to));
    gains[from] = at(gains, from) - flow;
    gains[to] = at(gains, to) + flow;
  }
  const pumped = pumpMolPerPaS * (at(pressuresPa, pumpSection) - ultimatePa);
  gains[pumpSection] = at(gains, pumpSection) - pumped;
  return { gains, pumped };
}

function joins({ from, to, molPerPaS }: Passage, one: number, other: number): number {
  return (from === one && to === other) || (from === other && to === one) ? molPerPaS : 0;
}

function sum<T>(items: readonly T[], of: (item: T) => number): number {
  return items.reduce((total, item) => total + of(item), 0);
}

function at<T>(values: readonly T[], index: number): T {
  const value = values[index];
  if (value === undefined) throw new RangeError(`there is no section or reservoir ${index}`);
  return value;
}
