/** From facts and conclusions to the picture of a printed curve. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { Speech } from '../words/speech.ts';
import { chartFlags, chartLines } from './chart-lines.ts';
import type { FigurePicture } from './figure-picture.ts';
import { pressureRange } from './pressure-range.ts';
import type { ThinnedCurve } from './thinned-curve.ts';
import type { ChartTime, TimeRange } from './time-range.ts';

interface FigureFacts {
  readonly id: string;
  readonly title: string;
  readonly curve: ThinnedCurve;
  /** In order of time. */
  readonly gaps: readonly TimeRange[];
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  /** Of the rise that is shown, or null for a pull-down. */
  readonly conclusions: Conclusions | null;
  readonly speech: Speech;
  readonly time: ChartTime;
  readonly ground: string;
  readonly points: boolean;
}

export function figureOf(facts: FigureFacts): FigurePicture {
  const { id, title, marks, sheet, conclusions, speech, time, ground, points } = facts;
  const gaps = facts.gaps.filter(({ fromS, toS }) => toS > time.fromS && fromS < time.toS);
  const curve = facts.curve.drawn(time, gaps);
  // A hold that ends in a nitrogen break goes up to the atmosphere, and the rise would lie flat at the bottom.
  const judgedS = conclusions?.nowS ?? Infinity;
  const judged = curve.pieces.flat().filter(({ elapsedS }) => elapsedS <= judgedS);
  const drawnPa = judged.map(({ pressurePa }) => pressurePa);
  return {
    id,
    title,
    time,
    range: pressureRange(time, drawnPa, conclusions, sheet, speech.units.pressure),
    curve,
    name: '',
    beside: [],
    strips: [],
    fitName: speech.wording.chart.key.fitted,
    fit: conclusions?.rise?.curve ?? [],
    lines: chartLines(time, sheet, speech),
    flags: chartFlags(time, marks, conclusions, speech),
    ground,
    points,
    speech,
  };
}
