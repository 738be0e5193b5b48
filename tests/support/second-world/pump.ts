/** A rotary pump: its speed, what comes back from it, and the water in its oil. */
export interface PumpSetup {
  readonly speedM3PerS: number;
  /** Below this pressure its speed falls, Pa: speed ∝ p/(p + this). */
  readonly kneePa: number;
  /** What it reaches by itself when warm, Pa, and how much worse it is when cold. */
  readonly ultimatePa: number;
  readonly coldFactor: number;
  readonly warmUpS: number;
  /** Speed lost on warming up, share of it. */
  readonly warmSpeedLoss: number;
  /** Vapour pressure over the water in its oil at the beginning, Pa, and how fast it is purged. */
  readonly oilPa: number;
  readonly oilPurgeS: number;
  /** How much of the pumped vapour stays in the oil: Pa for each Pa·m³ pumped. */
  readonly oilTakesPerM3: number;
  /** What it reaches with its gas ballast open, Pa. */
  readonly ballastPa: number;
}

/** With the ballast open water leaves the oil this much faster: a setting of ours. */
const BALLAST_PURGES = 8;

export class Pump {
  readonly #setup: PumpSetup;
  #oilPa: number;
  ballastOpen = false;

  constructor(setup: PumpSetup) {
    this.#setup = setup;
    this.#oilPa = setup.oilPa;
  }

  get oilPa(): number {
    return this.#oilPa;
  }

  speedM3PerS(pressurePa: number, runningS: number): number {
    const { speedM3PerS, kneePa, warmSpeedLoss, warmUpS } = this.#setup;
    const warm = 1 - warmSpeedLoss * (1 - Math.exp(-runningS / warmUpS));
    return (speedM3PerS * warm * pressurePa) / (pressurePa + kneePa);
  }

  /** Partial pressures of air and of vapour at which as much comes back as goes in, Pa. */
  floorsPa(runningS: number): { air: number; vapour: number } {
    const { ultimatePa, coldFactor, warmUpS, ballastPa } = this.#setup;
    const cold = 1 + (coldFactor - 1) * Math.exp(-runningS / warmUpS);
    return { air: ultimatePa * cold + (this.ballastOpen ? ballastPa : 0), vapour: this.#oilPa };
  }

  settle(dtS: number, pumpedVapourPaM3PerS: number): void {
    const { oilPurgeS, oilTakesPerM3 } = this.#setup;
    const tauS = oilPurgeS / (this.ballastOpen ? BALLAST_PURGES : 1);
    const takenPa = Math.max(pumpedVapourPaM3PerS, 0) * dtS * oilTakesPerM3;
    this.#oilPa = (this.#oilPa + takenPa) / (1 + dtS / tauS);
  }
}
