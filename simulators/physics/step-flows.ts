/**
 * What flows over one implicit step, with check valves and the nitrogen's regulator shut wherever gas
 * would go back. That is found out at the step's end, as all else is: a valve judged by the step's
 * beginning would let a whole step's gas through the wrong way.
 */
import type { Exchange, SectionExchanges } from './exchanges.ts';
import { balance, type Balanced, type Source } from './gas-balance.ts';
import { GASES, perGas, type Gas, type PerGas } from './gases.ts';
import type { Passage } from './passages.ts';
import { knowsRefrigerant, type RigState } from './rig-state.ts';

/** What gives gas to one section or takes it. */
export interface Part {
  readonly of: SectionExchanges;
  readonly nitrogen: Exchange | null;
  readonly enteringPaM3PerS: PerGas<number>;
}

export interface Step {
  readonly state: RigState;
  readonly stepS: number;
  /** 1/(R·T): from m³/s to mol/(Pa·s). */
  readonly molPerPaM3: number;
  /** Gas per pascal in each section at the step's end, mol/Pa. */
  readonly capacities: readonly number[];
  readonly speedM3PerS: number;
  /** Partial pressures at which the pump draws no more, Pa. */
  readonly ultimatePa: PerGas<number>;
  readonly passages: readonly Passage[];
  readonly parts: readonly Part[];
}

interface Flows {
  /** As given, without the nitrogen that would have flowed back. */
  readonly parts: readonly Part[];
  readonly balanced: PerGas<Balanced>;
}

export function flowsOver(step: Step): Flows {
  const balanced = perGas((gas) => balanceOf(gas, step));
  const passages = step.passages.filter(
    (passage) => !passage.oneWay || forwardPa(passage, balanced) >= 0,
  );
  const parts = step.parts.map((part, index) =>
    part.nitrogen && flowMolPerS(part.nitrogen, balanced, index) < 0
      ? { ...part, nitrogen: null }
      : part,
  );
  const shut =
    passages.length < step.passages.length ||
    parts.some((part, index) => part !== step.parts[index]);
  return shut ? flowsOver({ ...step, passages, parts }) : { parts, balanced };
}

/** Out of an exchange into its section. */
export function flowMolPerS(
  { gas, conductanceMolPerPaS, towardPa }: Exchange,
  balanced: PerGas<Balanced>,
  index: number,
): number {
  return conductanceMolPerPaS * (towardPa - at(balanced[gas].pressuresPa, index));
}

function balanceOf(gas: Gas, step: Step): Balanced {
  const { state, stepS, molPerPaM3, capacities, passages, parts, speedM3PerS, ultimatePa } = step;
  if (gas === 'refrigerant' && !knowsRefrigerant(state.setup)) return absent(capacities.length);
  return balance({
    stepS,
    capacities,
    passages,
    molPerPaM3,
    gasMol: state.sections.map(({ gasMol }) => gasMol[gas]),
    sources: parts.map((part) => sourceOf(part, gas, molPerPaM3)),
    pump: { section: state.setup.pump.section, speedM3PerS, ultimatePa: ultimatePa[gas] },
  });
}

function sourceOf({ of, nitrogen, enteringPaM3PerS }: Part, gas: Gas, molPerPaM3: number): Source {
  let conductanceMolPerPaS = 0;
  let pushMolPerS = 0;
  for (const exchange of nitrogen ? [...of.exchanges, nitrogen] : of.exchanges) {
    if (exchange.gas !== gas) continue;
    conductanceMolPerPaS += exchange.conductanceMolPerPaS;
    pushMolPerS += exchange.conductanceMolPerPaS * exchange.towardPa;
  }
  const lastTrace = gas === 'water' ? of.lastTraceMolPerS : 0;
  const inflowMolPerS = molPerPaM3 * enteringPaM3PerS[gas] + lastTrace;
  return { inflowMolPerS, conductanceMolPerPaS, pushMolPerS };
}

/** By how much the total pressure at a duct's first end is higher. */
function forwardPa({ from, to }: Passage, balanced: PerGas<Balanced>): number {
  return GASES.reduce((sum, gas) => {
    const { pressuresPa } = balanced[gas];
    return sum + at(pressuresPa, from) - at(pressuresPa, to);
  }, 0);
}

function absent(count: number): Balanced {
  const nothing = new Array<number>(count).fill(0);
  return { gasMol: nothing, pressuresPa: nothing, pumpedMolPerS: 0 };
}

function at<T>(values: ArrayLike<T>, index: number): T {
  const value = values[index];
  if (value === undefined) throw new RangeError(`there is no section ${index}`);
  return value;
}
