/**
 * Gas that walls and oil hold, let go and take up again: many small stores, each with its own time
 * constant. Equal amounts over log-spread time constants give a tail like 1/t, amounts that grow
 * with the root of the time constant one like 1/√t, as diffusion does, a single one an exponential.
 */
export interface Spectrum {
  readonly gas: 'air' | 'vapour';
  readonly node: 'near' | 'far';
  readonly tausS: readonly number[];
  /** What each holds at the beginning, Pa·m³. */
  readonly holdsPaM3: readonly number[];
  /** The pressure of the gas over it that it is in equilibrium with at the beginning, Pa. */
  readonly equilibriumPa: number;
  /** That pressure's relative change with temperature, 1/K. */
  readonly perK: number;
}

/** The stores of one spectrum as they empty. */
export class Reservoirs {
  readonly gas: Spectrum['gas'];
  readonly node: Spectrum['node'];
  readonly #tausS: readonly number[];
  readonly #holds: number[];
  readonly #capacityM3: readonly number[];
  readonly #perK: number;

  constructor({ gas, node, tausS, holdsPaM3, equilibriumPa, perK }: Spectrum) {
    this.gas = gas;
    this.node = node;
    this.#tausS = tausS;
    this.#holds = [...holdsPaM3];
    this.#capacityM3 = holdsPaM3.map((holds) => holds / equilibriumPa);
    this.#perK = perK;
  }

  /** Of a step of `dtS`: inflow = `gives` − `takes` · (pressure at its end); Pa·m³/s and m³/s. */
  coefficients(dtS: number, warmerK: number): { gives: number; takes: number } {
    const shrink = Math.exp(-this.#perK * warmerK);
    let gives = 0;
    let takes = 0;
    for (let i = 0; i < this.#tausS.length; i += 1) {
      const slow = (this.#tausS[i] ?? 1) + dtS;
      gives += (this.#holds[i] ?? 0) / slow;
      takes += ((this.#capacityM3[i] ?? 0) * shrink) / slow;
    }
    return { gives, takes };
  }

  /** Takes the step, now that the pressure at its end is known. */
  settle(dtS: number, warmerK: number, pressurePa: number): void {
    const shrink = Math.exp(-this.#perK * warmerK);
    for (let i = 0; i < this.#tausS.length; i += 1) {
      const share = dtS / (this.#tausS[i] ?? 1);
      const equilibrium = (this.#capacityM3[i] ?? 0) * shrink * pressurePa;
      this.#holds[i] = ((this.#holds[i] ?? 0) + share * equilibrium) / (1 + share);
    }
  }
}
