/** The bins of a stretch whose end moves on: what stays as it is is taken out of the history once. */
import type { TimeBin } from './bin-level.ts';
import type { History } from './history.ts';

/** The next bins of it. */
interface NextBins {
  /** None that were given before count any longer: all that follow are given again. */
  readonly anew: boolean;
  /** Those that stay as they are, as long as no late reading comes. */
  readonly staying: readonly TimeBin[];
  /** What follows them, only for this once. */
  readonly later: readonly TimeBin[];
}

export class BinRun {
  readonly #history: History;
  readonly #fromS: number;
  #lateReadings = -1;
  #layer = -1;
  /** What begins before it has been given. */
  #atS = 0;

  constructor(history: History, fromS: number) {
    this.#history = history;
    this.#fromS = fromS;
  }

  /** All together, they are those that the history has from `fromS` to `toS`. */
  upTo(toS: number): NextBins {
    const history = this.#history;
    const endS = Math.floor(toS);
    const startS = history.startOf(this.#fromS, endS);
    const layer = history.layerFor(endS - startS);
    const widthS = history.widthS(layer);
    // A second that is over for all but late readings: they are counted. The widest bins lie one by one.
    const overS = Math.min(endS, Math.ceil(history.lastS ?? 0) - 1);
    const staysS = Math.floor(overS / widthS) * widthS;
    const anew =
      this.#lateReadings !== history.lateReadings || this.#layer !== layer || this.#atS > staysS;
    if (anew) {
      // The first reading of all is not late, whenever it comes.
      this.#lateReadings = history.lastS === null ? -1 : history.lateReadings;
      this.#layer = layer;
      this.#atS = startS;
    }
    const staying: TimeBin[] = [];
    this.#atS = history.addBins(staying, this.#atS, staysS, endS, layer);
    const later: TimeBin[] = [];
    history.addBins(later, this.#atS, endS, endS, layer);
    return { anew, staying, later };
  }
}
