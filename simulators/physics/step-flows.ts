/**
 * What flows over one implicit step. Through a check valve and out of the nitrogen's regulator no gas
 * goes back: that is found out at the step's end, as all else is, since a valve judged by the step's
 * beginning would let a whole step's gas through the wrong way. A check valve holds each gas for
 * itself, as each flows for itself: a vapour scarce on the far side gets through even where the total
 * pressure there would keep a real valve shut.
 */
import type { Exchange, SectionExchanges } from './exchanges.ts';
import { balance, type Balanced, type Source } from './gas-balance.ts';
import { perGas, type Gas, type PerGas } from './gases.ts';
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
  const backward = step.parts.some(
    ({ nitrogen }, index) => nitrogen && flowMolPerS(nitrogen, balanced, index) < 0,
  );
  if (!backward) return { parts: step.parts, balanced };
  const parts = step.parts.map((part) => ({ ...part, nitrogen: null }));
  return { parts, balanced: perGas((gas) => balanceOf(gas, { ...step, parts })) };
}

/** Out of an exchange into its section. */
export function flowMolPerS(
  { gas, conductanceMolPerPaS, towardPa }: Exchange,
  balanced: PerGas<Balanced>,
  index: number,
): number {
  return conductanceMolPerPaS * (towardPa - at(balanced[gas].pressuresPa, index));
}

/** Turns in which a check valve may still open again. */
const TURNS = 5;

/** With check valves shut where gas would go back, and open everywhere else. */
function balanceOf(gas: Gas, step: Step): Balanced {
  if (gas === 'refrigerant' && !knowsRefrigerant(step.state.setup)) {
    return absent(step.capacities.length);
  }
  if (!step.passages.some(({ oneWay }) => oneWay)) return balanceThrough(step.passages, gas, step);
  let shut: readonly Passage[] = [];
  for (let turn = 1; ; turn += 1) {
    const balanced = balanceThrough(
      step.passages.filter((passage) => !shut.includes(passage)),
      gas,
      step,
    );
    const goingBack = step.passages.filter((passage) => goesBack(passage, balanced));
    // What one valve lets through may be what opens another: none is shut for good at first.
    const next = turn <= TURNS ? goingBack : [...new Set([...shut, ...goingBack])];
    if (next.length === shut.length && next.every((passage) => shut.includes(passage))) {
      return balanced;
    }
    shut = next;
  }
}

function balanceThrough(passages: readonly Passage[], gas: Gas, step: Step): Balanced {
  const { state, stepS, molPerPaM3, capacities, parts, speedM3PerS, ultimatePa } = step;
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

function goesBack({ oneWay, from, to }: Passage, { pressuresPa }: Balanced): boolean {
  return oneWay && at(pressuresPa, from) < at(pressuresPa, to);
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

function absent(count: number): Balanced {
  const nothing = new Array<number>(count).fill(0);
  return { gasMol: nothing, pressuresPa: nothing, pumpedMolPerS: 0 };
}

function at<T>(values: ArrayLike<T>, index: number): T {
  const value = values[index];
  if (value === undefined) throw new RangeError(`there is no section ${index}`);
  return value;
}
