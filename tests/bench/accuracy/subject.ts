/** A trial as the judge meets it: readings and marks, a default sheet, and nothing else. */
import { DEFAULT_SHEET, type Sheet } from '../../../protocol/sheet.ts';
import type { Conclusions } from '../../../web/analysis/conclusions.ts';
import { History, type HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { judge } from '../../../web/analysis/judge.ts';
import { median } from '../../../web/analysis/fitting/median.ts';
import type { Mark } from '../../../protocol/mark.ts';

/** The temperature is the median of so many of the readings at most: more change nothing. */
const TEMPERATURES = 400;

export class Subject {
  readonly points: readonly HistoryPoint[];
  readonly #marks: readonly Mark[];
  readonly #history = new History();
  readonly #warm: readonly { readonly elapsedS: number; readonly temperatureC: number }[];

  constructor(points: readonly HistoryPoint[], marks: readonly Mark[]) {
    this.points = points;
    this.#marks = marks;
    for (const point of points) this.#history.insert(point);
    const every = Math.ceil(points.length / TEMPERATURES);
    this.#warm = points.flatMap(({ elapsedS, temperatureC }, i) =>
      temperatureC === null || i % every > 0 ? [] : [{ elapsedS, temperatureC }],
    );
  }

  /** As the analyse command would conclude from a file that ends at `nowS`. */
  judge(nowS: number, holdS = DEFAULT_SHEET.holdS): Conclusions {
    const warm = this.#warm.filter(({ elapsedS }) => elapsedS <= nowS);
    const sheet: Sheet = {
      ...DEFAULT_SHEET,
      holdS,
      metalTemperatureC:
        warm.length === 0 ? null : median(warm.map(({ temperatureC }) => temperatureC)),
    };
    return judge(this.#history, this.#marks, sheet, Math.ceil(nowS));
  }
}
