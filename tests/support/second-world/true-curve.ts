/** Partial pressures at the sensor as they really were, point by point; between them straight lines. */
export class TrueCurve {
  readonly #timesS: number[] = [];
  readonly #airPa: number[] = [];
  readonly #vapourPa: number[] = [];

  add(elapsedS: number, airPa: number, vapourPa: number): void {
    this.#timesS.push(elapsedS);
    this.#airPa.push(airPa);
    this.#vapourPa.push(vapourPa);
  }

  get endS(): number {
    return this.#timesS.at(-1) ?? 0;
  }

  /** What a sensor shows that reads all gas by `gain` and vapour by `vapourFactor` more, Pa. */
  shownAt(elapsedS: number, { gain, vapourFactor }: Reads): number {
    const times = this.#timesS;
    let low = 0;
    let high = times.length - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((times[middle] ?? 0) <= elapsedS) low = middle;
      else high = middle;
    }
    const fromS = times[low] ?? 0;
    const lengthS = (times[high] ?? 0) - fromS;
    const share = lengthS > 0 ? Math.min(Math.max((elapsedS - fromS) / lengthS, 0), 1) : 0;
    const value = (values: readonly number[]) => {
      const from = values[low] ?? 0;
      return from + share * ((values[high] ?? from) - from);
    };
    return gain * (value(this.#airPa) + vapourFactor * value(this.#vapourPa));
  }
}

/** A sensor's systematic errors. */
export interface Reads {
  readonly gain: number;
  /** Thermal gauges read water vapour by tens of per cent wrong; others have 1 here. */
  readonly vapourFactor: number;
}
