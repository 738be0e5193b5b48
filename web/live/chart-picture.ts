/** Everything that the chart shows at one moment, gathered before anything is drawn. */
import type { CurvePoint } from '../analysis/conclusions.ts';
import type { ChartFlag, ChartLine } from '../figure/chart-lines.ts';
import type { PressureRange } from '../figure/pressure-range.ts';
import type { ChartTime } from '../figure/time-range.ts';
import type { CurvePieces } from '../store/side-curve.ts';
import type { DrawnSeries } from '../store/thin-readings.ts';
import type { Speech } from '../words/speech.ts';

/** How the pressure of a dry, tight system should fall; empty where that is not known. */
export type ExpectedLine = readonly { readonly elapsedS: number; readonly pressurePa: number }[];

/** A depth, and when the curve may come to it: eight times of ten between the two ends. */
export interface Arrival {
  readonly pressurePa: number;
  readonly earliestS: number;
  readonly middleS: number;
  /** Null where no upper end is known. */
  readonly latestS: number | null;
}

/** A sensor that is recorded beside the watched one. */
export interface BesideLine {
  readonly name: string;
  readonly pieces: CurvePieces;
}

export interface ChartPicture {
  readonly time: ChartTime;
  readonly range: PressureRange;
  readonly series: DrawnSeries;
  /** What the watched sensor is called. */
  readonly name: string;
  readonly beside: readonly BesideLine[];
  /** Empty while a forecast or fit would not be true of the present. */
  readonly curve: readonly CurvePoint[];
  /** When target and depth are likely to be reached; empty as `curve`. */
  readonly arrivals: readonly Arrival[];
  /** A word at the curve, in italics. */
  readonly remark: { readonly text: string; readonly warning: boolean } | null;
  readonly expected: ExpectedLine;
  readonly lines: readonly ChartLine[];
  readonly flags: readonly ChartFlag[];
  /** Set into the chart's ground, as 'Rehearsal'; empty for a job. */
  readonly ground: string;
  /** False: the last point is not the present one and is drawn hollow. */
  readonly live: boolean;
  /** Whether each reading is drawn as a point, since the line between two is no more than that. */
  readonly points: boolean;
  readonly speech: Speech;
}
