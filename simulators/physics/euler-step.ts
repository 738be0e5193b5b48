/**
 * One implicit Euler step of the whole rig: of first order, stable for any length, and exact in its
 * bookkeeping, since each flow is worked out once and taken from one side and given to the other.
 *
 * Conductances and the like are those of the step's beginning. Each gas flows by its own difference
 * of partial pressure with the conductance of the mixture: for the total pressure that is the same
 * as bulk flow; what it leaves out is that a stream of vapour holds back air that drifts against it.
 */
import type { Controls } from './controls.ts';
import { enteringPaM3PerS, nitrogenExchange } from './entering.ts';
import { exchangesOver } from './exchanges.ts';
import { perGas, type PerGas } from './gases.ts';
import { passagesOf, type Passage } from './passages.ts';
import { GAS_CONSTANT } from '../../protocol/gas-constants.ts';
import { isRunning, pumpAfter, ultimatePa } from './pump.ts';
import { gasCapacityMolPerPa, type RigState } from './rig-state.ts';
import { flowMolPerS, flowsOver, type Part } from './step-flows.ts';
import { gasTemperatureK, warmedK } from './surroundings.ts';

/** What holds at a step's beginning, whatever its length. */
export interface Conditions {
  readonly controls: Controls;
  readonly passages: readonly Passage[];
  /** Into each section from outside, Pa·m³/s. */
  readonly entering: readonly PerGas<number>[];
}

export function conditionsOf(state: RigState, controls: Controls): Conditions {
  return {
    controls,
    passages: passagesOf(state, controls),
    entering: state.sections.map((_, index) => enteringPaM3PerS(state, index, controls)),
  };
}

export function eulerStep(state: RigState, stepS: number, conditions: Conditions): RigState {
  const { setup } = state;
  const { controls, passages, entering } = conditions;
  const { surroundings, pump } = setup;
  const endS = state.elapsedS + stepS;
  const molPerPaM3 = 1 / (GAS_CONSTANT * gasTemperatureK(surroundings, endS));
  const warmerK = warmedK(surroundings, endS);
  const { parts, balanced } = flowsOver({
    state,
    stepS,
    molPerPaM3,
    capacities: setup.sections.map((section) => gasCapacityMolPerPa(setup, section, endS)),
    speedM3PerS: isRunning(pump, state.pump, controls) ? pump.displacementM3PerS : 0,
    ultimatePa: ultimatePa(pump, state.pump, controls),
    passages,
    parts: setup.sections.map((section, index): Part => ({
      of: exchangesOver(stepS, section, at(state.sections, index), warmerK),
      nitrogen: nitrogenExchange(state, index, controls, molPerPaM3),
      enteringPaM3PerS: at(entering, index),
    })),
  });
  const pumpedMolPerS = perGas((gas) => balanced[gas].pumpedMolPerS);
  return {
    ...state,
    elapsedS: endS,
    sections: parts.map(({ of: { exchanges, after } }, index) => {
      const flows = exchanges.map((exchange) => flowMolPerS(exchange, balanced, index));
      const { reservoirMol, puddle } = after(flows);
      return { gasMol: perGas((gas) => at(balanced[gas].gasMol, index)), reservoirMol, puddle };
    }),
    pump: pumpAfter(pump, state.pump, stepS, {
      controls,
      drawnMolPerS: pumpedMolPerS,
      surroundings,
      elapsedS: endS,
    }),
    enteredMol: perGas((gas) =>
      parts.reduce((sum, { enteringPaM3PerS, nitrogen }, index) => {
        const filled = nitrogen?.gas === gas ? flowMolPerS(nitrogen, balanced, index) : 0;
        return sum + stepS * (molPerPaM3 * enteringPaM3PerS[gas] + filled);
      }, state.enteredMol[gas]),
    ),
    pumpedMol: perGas((gas) => state.pumpedMol[gas] + stepS * pumpedMolPerS[gas]),
  };
}

function at<T>(values: readonly T[], index: number): T {
  const value = values[index];
  if (value === undefined) throw new RangeError(`there is no section ${index}`);
  return value;
}
