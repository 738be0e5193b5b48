/** Liquid water that boils, cools itself by that, freezes, and comes to an end. */
import {
  FUSION_J_PER_KG,
  saturationPa,
  saturationPaPerK,
  VAPORISATION_J_PER_KG,
  WATER_GAS_J_PER_KG_K,
  WATER_J_PER_KG_K,
} from './vapour.ts';

export interface PoolSetup {
  readonly node: 'near' | 'far';
  readonly waterKg: number;
  /** How well vapour gets away from its full surface, m³/s. */
  readonly exchangeM3PerS: number;
  /** The surface shrinks with this power of the mass that is left: 0 a trough, 2/3 a drop. */
  readonly surfacePower: number;
  /** Heat that the metal brings, W/K, and metal that cools with the water, J/K. */
  readonly warmthWPerK: number;
  readonly metalJPerK: number;
}

/** Less than a microgram: gone. */
const NOTHING_KG = 1e-9;

export class Pool {
  readonly node: PoolSetup['node'];
  readonly #setup: PoolSetup;
  #leftKg: number;
  /** Over liquid at 0 °C, J: below −(mass · heat of fusion) all is ice. */
  #heatJ: number;

  constructor(setup: PoolSetup, temperatureC: number) {
    this.node = setup.node;
    this.#setup = setup;
    this.#leftKg = setup.waterKg;
    this.#heatJ = temperatureC * this.#capacityJPerK;
  }

  get leftKg(): number {
    return this.#leftKg;
  }

  get temperatureC(): number {
    if (this.#heatJ >= 0) return this.#heatJ / this.#capacityJPerK;
    const frozenJ = this.#heatJ + this.#leftKg * FUSION_J_PER_KG;
    return frozenJ >= 0 ? 0 : frozenJ / this.#capacityJPerK;
  }

  /** Of a step of `dtS`: inflow = `gives` − `takes` · (vapour pressure at its end). */
  coefficients(dtS: number, metalC: number): { gives: number; takes: number } {
    if (this.#leftKg < NOTHING_KG) return { gives: 0, takes: 0 };
    const { exchangeM3PerS, surfacePower, waterKg, warmthWPerK } = this.#setup;
    const coldC = this.temperatureC;
    const wetM3PerS = exchangeM3PerS * Math.min(this.#leftKg / waterKg, 1) ** surfacePower;
    // While it freezes or thaws its temperature stands still, whatever the heat does.
    const stands = this.#heatJ < 0 && this.#heatJ > -this.#leftKg * FUSION_J_PER_KG;
    const gain = stands ? 0 : dtS / (this.#capacityJPerK + dtS * warmthWPerK);
    const slope = saturationPaPerK(coldC);
    const equilibriumPa = saturationPa(coldC) + slope * gain * warmthWPerK * (metalC - coldC);
    const coolsKPerPaM3 = slope * gain * this.#joulePerPaM3();
    const freely = wetM3PerS / (1 + wetM3PerS * coolsKPerPaM3);
    const atMost = this.#leftKg / this.#kgPerPaM3() / (dtS * equilibriumPa);
    const takes = Math.min(freely, atMost);
    return { gives: takes * equilibriumPa, takes };
  }

  /** Takes the step. @param inflowPaM3PerS what went into the gas (negative: condensed) */
  settle(dtS: number, metalC: number, inflowPaM3PerS: number): void {
    if (this.#leftKg < NOTHING_KG) return;
    const goneKg = inflowPaM3PerS * dtS * this.#kgPerPaM3();
    const warmed = this.#setup.warmthWPerK * dtS;
    // Implicit, so that a small pool doesn't swing about the metal's temperature.
    const share = warmed / (1 + warmed / this.#capacityJPerK);
    this.#heatJ += share * (metalC - this.temperatureC) - VAPORISATION_J_PER_KG * goneKg;
    this.#leftKg = Math.max(this.#leftKg - goneKg, 0);
  }

  get #capacityJPerK(): number {
    return this.#leftKg * WATER_J_PER_KG_K + this.#setup.metalJPerK;
  }

  #kgPerPaM3(): number {
    return 1 / (WATER_GAS_J_PER_KG_K * (this.temperatureC + 273.15));
  }

  #joulePerPaM3(): number {
    return VAPORISATION_J_PER_KG * this.#kgPerPaM3();
  }
}
