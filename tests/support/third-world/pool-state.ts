/** Water that boils, cools, freezes and sublimes; Pa·m³ of vapour leave it. */
import {
  iceVapourPressurePa,
  liquidVapourPressurePa,
  TRIPLE_POINT_K,
} from '../../../protocol/water.ts';
import type { Pool } from './rig.ts';

const GAS_J_PER_MOL_K = 8.314;
const WATER_KG_PER_MOL = 0.018;
const EVAPORATION_J_PER_KG = 2.5e6;
const FREEZING_J_PER_KG = 3.34e5;
const WATER_J_PER_KG_K = 4186;
/** Metal under it that cools along. */
const METAL_J_PER_K = 150;

export class PoolState {
  readonly #pool: Pool;
  #leftKg: number;
  #temperatureK: number;
  #frozenJ = 0;

  constructor(pool: Pool, temperatureK: number) {
    this.#pool = pool;
    this.#leftKg = pool.waterKg;
    this.#temperatureK = Math.max(temperatureK, TRIPLE_POINT_K + 0.1);
  }

  get evaporationM3PerS(): number {
    const { waterKg, evaporationM3PerS } = this.#pool;
    // The surface shrinks as it goes.
    return this.#leftKg <= 0 ? 0 : evaporationM3PerS * (this.#leftKg / waterKg) ** (2 / 3);
  }

  get vapourPa(): number {
    return this.#temperatureK >= TRIPLE_POINT_K
      ? liquidVapourPressurePa(this.#temperatureK)
      : iceVapourPressurePa(this.#temperatureK);
  }

  /** @param gonePaM3 vapour that left in this step */
  step(stepS: number, gonePaM3: number, wallK: number): void {
    const goneKg = (gonePaM3 * WATER_KG_PER_MOL) / (GAS_J_PER_MOL_K * wallK);
    this.#leftKg = Math.max(0, this.#leftKg - goneKg);
    const heatJ =
      this.#pool.heatWPerK * (wallK - this.#temperatureK) * stepS - goneKg * EVAPORATION_J_PER_KG;
    this.#warm(heatJ);
  }

  #warm(heatJ: number): void {
    const perK = METAL_J_PER_K + this.#leftKg * WATER_J_PER_KG_K;
    const wholeJ = this.#leftKg * FREEZING_J_PER_KG;
    const next = this.#temperatureK + heatJ / perK;
    const freezes = next < TRIPLE_POINT_K && this.#frozenJ < wholeJ;
    const thaws = next > TRIPLE_POINT_K && this.#frozenJ > 0;
    if (!freezes && !thaws) {
      this.#temperatureK = Math.max(next, 180);
      return;
    }
    // What would lead past the triple point freezes or thaws instead.
    this.#frozenJ = Math.max(0, this.#frozenJ + (TRIPLE_POINT_K - next) * perK);
    this.#temperatureK = TRIPLE_POINT_K;
  }
}
