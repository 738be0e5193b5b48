/** From when on the curve differs from that of the same job in order. */

/** Sensors of the trade agree no better than this, as a share … */
const SHARE = 0.1;
/** … or in Pa. */
const LEAST_PA = 2;
/** Shorter differences are what turning a valve a second later would make. */
const LASTING_S = 60;

export class Telling {
  #sinceS: number | null = null;
  #toldS: number | null = null;

  /** Data time at which a lasting difference began, or null while there was none. */
  get toldS(): number | null {
    return this.#toldS;
  }

  /** @param pressurePa as the sensor would show it without noise; null over range */
  see(elapsedS: number, pressurePa: number | null, inOrderPa: number | null): void {
    if (this.#toldS !== null) return;
    if (!differ(pressurePa, inOrderPa)) {
      this.#sinceS = null;
      return;
    }
    this.#sinceS ??= elapsedS;
    if (elapsedS - this.#sinceS >= LASTING_S) this.#toldS = this.#sinceS;
  }
}

function differ(onePa: number | null, otherPa: number | null): boolean {
  if (onePa === null || otherPa === null) return onePa !== otherPa;
  const off = Math.abs(onePa - otherPa);
  return off > LEAST_PA && off > SHARE * Math.max(onePa, otherPa);
}
