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
  readonly pressuresPa: readonly number[];
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

function pressuresAfter(given: Balance): number[] {
  const { stepS, capacities, sources, passages, molPerPaM3, pump } = given;
  const pumping = molPerPaM3 * pump.speedM3PerS;
  const matrix = capacities.map((capacity, row) => {
    const entries = new Array<number>(capacities.length).fill(0);
    entries[row] =
      capacity +
      stepS * (at(sources, row).conductanceMolPerPaS + (row === pump.section ? pumping : 0));
    return entries;
  });
  for (const { from, to, conductanceM3PerS } of passages) {
    const flow = stepS * molPerPaM3 * conductanceM3PerS;
    for (const [here, there] of [
      [from, to],
      [to, from],
    ] as const) {
      const row = at(matrix, here);
      row[here] = at(row, here) + flow;
      row[there] = at(row, there) - flow;
    }
  }
  const right = given.gasMol.map((mol, row) => {
    const { inflowMolPerS, pushMolPerS } = at(sources, row);
    const back = row === pump.section ? pumping * pump.ultimatePa : 0;
    return mol + stepS * (inflowMolPerS + pushMolPerS + back);
  });
  return solveLinear(matrix, right);
}

function at<T>(values: readonly T[], index: number): T {
  const value = values[index];
  if (value === undefined) throw new RangeError(`there is no section ${index}`);
  return value;
}
