/** Everything that the chart shows at one moment, gathered before anything is drawn. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { CurvePoint } from '../analysis/conclusions.ts';
import type { ChartFlag, ChartLine } from '../figure/chart-lines.ts';
import type { PressureRange } from '../figure/pressure-range.ts';
import type { ChartTime, TimeRange } from '../figure/time-range.ts';
import type { ChannelCurve } from '../store/channel-curve.ts';
import type { DrawnCurve } from '../store/drawn-curve.ts';
import type { ExportFacts } from '../words/say-export.ts';
import type { Speech } from '../words/speech.ts';
import type { Bounds } from './view.ts';

/** How the pressure of a dry, tight system should fall; empty where that is not known. */
/** What a line may join of another job's curve, laid behind this one: as many moments as pressures. */
export interface BehindPiece {
  readonly elapsedS: readonly number[];
  readonly pressurePa: readonly number[];
}

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
  /** To look things up in. */
  readonly curve: ChannelCurve;
  readonly series: DrawnCurve;
}

export interface ChartPicture {
  readonly time: ChartTime;
  /** What is shown where nothing else was chosen. */
  readonly usual: TimeRange;
  readonly bounds: Bounds;
  readonly range: PressureRange;
  /** The watched curve, to look things up in, and what is drawn of it. */
  readonly source: ChannelCurve;
  readonly series: DrawnCurve;
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
  /** Empty where no other job lies there. */
  readonly behind: readonly BehindPiece[];
  readonly lines: readonly ChartLine[];
  readonly flags: readonly ChartFlag[];
  /** Set into the chart's ground, as 'Rehearsal'; empty for a job. */
  readonly ground: string;
  /** False: the last point is not the present one and is drawn hollow. */
  readonly live: boolean;
  /** Whether each reading is drawn as a point, since the line between two is no more than that. */
  readonly points: boolean;
  /** Wall time of data time zero, ms since 1970; null where nobody knows it. */
  readonly startedAtMs: number | null;
  readonly sheet: Sheet;
  /** Forecast or verdict in a few words; empty where there is none. */
  readonly conclusion: string;
  /** What stands with a picture that is saved. */
  readonly about: ExportFacts;
  readonly speech: Speech;
}
