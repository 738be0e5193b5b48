/** Everything that the chart shows at one moment, gathered before anything is drawn. */
import type { CurvePoint } from '../analysis/conclusions.ts';
import type { ChartFlag, ChartLine } from '../figure/chart-lines.ts';
import type { PressureRange } from '../figure/pressure-range.ts';
import type { ChartTime } from '../figure/time-range.ts';
import type { DrawnSeries } from '../store/thin-readings.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';

export interface ChartPicture {
  readonly time: ChartTime;
  readonly range: PressureRange;
  readonly series: DrawnSeries;
  /** Empty while a forecast or fit would not be true of the present. */
  readonly curve: readonly CurvePoint[];
  /** A word at the curve, in italics. */
  readonly remark: { readonly text: string; readonly warning: boolean } | null;
  readonly lines: readonly ChartLine[];
  readonly flags: readonly ChartFlag[];
  /** Set into the chart's ground, as 'Rehearsal'; empty for a job. */
  readonly ground: string;
  /** False: the last point is not the present one and is drawn hollow. */
  readonly live: boolean;
  readonly units: UnitsOfChoice;
}
