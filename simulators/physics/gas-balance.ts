/** One gas over one implicit step of the whole rig: a linear system, one row a section. */
import type { Passage } from './passages.ts';
import { solveLinear } from './solve-linear.ts';

/** What gives or takes this gas in one section, besides ducts and pump. */
export interface Source {
  /** Flow in = inflow + conductance · toward − conductance · pressure; mol/s and mol/(Pa·s). */
  readonly inflowMolPerS: number;
  readonly conductanceMolPerPaS: number;
  /** Σ conductance · toward. */
  readonly pushMolPerS: number;
}

export interface Balance {
  readonly stepS: number;
  /** Gas in each section at the step's beginning, mol. */
  readonly gasMol: readonly number[];
  /** Gas per pascal in each section at the step's end, mol/Pa. */
  readonly capacities: readonly number[];
  readonly sources: readonly Source[];
  readonly passages: readonly Passage[];
  /** 1/(R·T): from m³/s to mol/(Pa·s). */
  readonly molPerPaM3: number;
  /** The pump draws speed · (pressure − ultimate). */
  readonly pump: {
    readonly section: number;
    readonly speedM3PerS: number;
    readonly ultimatePa: number;
  };
}

export interface Balanced {
  /** At the step's end. */
  readonly gasMol: readonly number[];
  readonly pressuresPa: ArrayLike<number>;
  readonly pumpedMolPerS: number;
}

export function balance(given: Balance): Balanced {
  const pressuresPa = pressuresAfter(given);
  const { stepS, molPerPaM3, pump } = given;
  const gains = given.sources.map(
    ({ inflowMolPerS, pushMolPerS, conductanceMolPerPaS }, row) =>
      inflowMolPerS + pushMolPerS - conductanceMolPerPaS * at(pressuresPa, row),
  );
  // Each flow is worked out once, taken from one side and given to the other.
  for (const { from, to, conductanceM3PerS } of given.passages) {
    const flow = molPerPaM3 * conductanceM3PerS * (at(pressuresPa, from) - at(pressuresPa, to));
    gains[from] = at(gains, from) - flow;
    gains[to] = at(gains, to) + flow;
  }
  const pumpedMolPerS =
    molPerPaM3 * pump.speedM3PerS * (at(pressuresPa, pump.section) - pump.ultimatePa);
  gains[pump.section] = at(gains, pump.section) - pumpedMolPerS;
  return {
    gasMol: given.gasMol.map((mol, row) => mol + stepS * at(gains, row)),
    pressuresPa,
    pumpedMolPerS,
  };
}

function pressuresAfter(given: Balance): Float64Array {
  const { stepS, capacities, sources, passages, molPerPaM3, pump, gasMol } = given;
  const size = capacities.length;
  const width = size + 1;
  const augmented = new Float64Array(size * width);
  for (let row = 0; row < size; row += 1) {
    const { inflowMolPerS, pushMolPerS, conductanceMolPerPaS } = at(sources, row);
    add(augmented, row * width + row, at(capacities, row) + stepS * conductanceMolPerPaS);
    add(augmented, row * width + size, at(gasMol, row) + stepS * (inflowMolPerS + pushMolPerS));
  }
  const pumping = stepS * molPerPaM3 * pump.speedM3PerS;
  add(augmented, pump.section * width + pump.section, pumping);
  add(augmented, pump.section * width + size, pumping * pump.ultimatePa);
  for (const { from, to, conductanceM3PerS } of passages) {
    const flow = stepS * molPerPaM3 * conductanceM3PerS;
    add(augmented, from * width + from, flow);
    add(augmented, from * width + to, -flow);
    add(augmented, to * width + to, flow);
    add(augmented, to * width + from, -flow);
  }
  return solveLinear(augmented, size);
}

function add(values: Float64Array, index: number, value: number): void {
  values[index] = (values[index] ?? NaN) + value;
}

function at<T>(values: ArrayLike<T>, index: number): T {
  const value = values[index];
  if (value === undefined) throw new RangeError(`there is no section ${index}`);
  return value;
}
