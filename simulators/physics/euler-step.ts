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
import { exchangesOver, type Exchange } from './exchanges.ts';
import { balance, type Balanced } from './gas-balance.ts';
import { perGas, type Gas, type PerGas } from './gases.ts';
import { passagesOf } from './passages.ts';
import { GAS_CONSTANT } from './physical-constants.ts';
import { isRunning, pumpAfter, ultimatePa } from './pump.ts';
import { gasCapacityMolPerPa, knowsRefrigerant, type RigState } from './rig-state.ts';
import { gasTemperatureK, warmedK } from './surroundings.ts';

export function eulerStep(state: RigState, stepS: number, controls: Controls): RigState {
  const { setup } = state;
  const { surroundings, pump } = setup;
  const endS = state.elapsedS + stepS;
  const molPerPaM3 = 1 / (GAS_CONSTANT * gasTemperatureK(surroundings, endS));
  const parts = setup.sections.map((section, index) => {
    const entering = enteringPaM3PerS(state, index, controls);
    return {
      ...exchangesOver(stepS, section, at(state.sections, index), warmedK(surroundings, endS)),
      nitrogen: nitrogenExchange(state, index, controls, molPerPaM3),
      enteringMolPerS: perGas((gas) => molPerPaM3 * entering[gas]),
      capacity: gasCapacityMolPerPa(setup, section, endS),
    };
  });
  const shared = {
    stepS,
    capacities: parts.map(({ capacity }) => capacity),
    passages: passagesOf(state, controls),
    molPerPaM3,
  };
  const speedM3PerS = isRunning(pump, state.pump, controls) ? pump.displacementM3PerS : 0;
  const ultimate = ultimatePa(pump, state.pump, controls);
  const balanced = perGas((gas) =>
    gas === 'refrigerant' && !knowsRefrigerant(setup)
      ? absent(setup.sections.length)
      : balance({
          ...shared,
          gasMol: state.sections.map(({ gasMol }) => gasMol[gas]),
          sources: parts.map((part) => sourceOf(part, gas)),
          pump: { section: pump.section, speedM3PerS, ultimatePa: ultimate[gas] },
        }),
  );
  const pumpedMolPerS = perGas((gas) => balanced[gas].pumpedMolPerS);
  return {
    ...state,
    elapsedS: endS,
    sections: parts.map(({ exchanges, after }, index) => ({
      gasMol: perGas((gas) => at(balanced[gas].gasMol, index)),
      ...after(exchanges.map((exchange) => flowMolPerS(exchange, balanced, index))),
    })),
    pump: pumpAfter(pump, state.pump, stepS, {
      controls,
      drawnMolPerS: pumpedMolPerS,
      surroundings,
      elapsedS: endS,
    }),
    enteredMol: perGas((gas) =>
      parts.reduce((sum, { enteringMolPerS, nitrogen }, index) => {
        const filled = nitrogen?.gas === gas ? flowMolPerS(nitrogen, balanced, index) : 0;
        return sum + stepS * (enteringMolPerS[gas] + filled);
      }, state.enteredMol[gas]),
    ),
    pumpedMol: perGas((gas) => state.pumpedMol[gas] + stepS * pumpedMolPerS[gas]),
  };
}

interface Part {
  readonly exchanges: readonly Exchange[];
  readonly nitrogen: Exchange | null;
  readonly enteringMolPerS: PerGas<number>;
  readonly lastTraceMolPerS: number;
}

function sourceOf({ exchanges, nitrogen, enteringMolPerS, lastTraceMolPerS }: Part, gas: Gas) {
  let conductanceMolPerPaS = 0;
  let pushMolPerS = 0;
  for (const exchange of nitrogen ? [...exchanges, nitrogen] : exchanges) {
    if (exchange.gas !== gas) continue;
    conductanceMolPerPaS += exchange.conductanceMolPerPaS;
    pushMolPerS += exchange.conductanceMolPerPaS * exchange.towardPa;
  }
  const lastTrace = gas === 'water' ? lastTraceMolPerS : 0;
  return { inflowMolPerS: enteringMolPerS[gas] + lastTrace, conductanceMolPerPaS, pushMolPerS };
}

function flowMolPerS(
  { gas, conductanceMolPerPaS, towardPa }: Exchange,
  balanced: PerGas<Balanced>,
  index: number,
): number {
  return conductanceMolPerPaS * (towardPa - at(balanced[gas].pressuresPa, index));
}

function absent(count: number): Balanced {
  const nothing = new Array<number>(count).fill(0);
  return { gasMol: nothing, pressuresPa: nothing, pumpedMolPerS: 0 };
}

function at<T>(values: readonly T[], index: number): T {
  const value = values[index];
  if (value === undefined) throw new RangeError(`there is no section ${index}`);
  return value;
}
