/** Everything that a printed curve shows, gathered before anything is drawn. */
import type { CurvePoint } from '../analysis/conclusions.ts';
import type { Speech } from '../words/speech.ts';
import type { ChartFlag, ChartLine } from './chart-lines.ts';
import type { PressureRange } from './pressure-range.ts';
import type { CurvePlace, DrawnCurve } from './thinned-curve.ts';
import type { ChartTime, TimeRange } from './time-range.ts';

/** `late`: recorded after later ones; `fault`: without a number; `warming_up`: not to be relied on. */
export interface FigureStrip extends TimeRange {
  readonly kind: 'late' | 'fault' | 'warming_up';
}

export interface FigurePicture {
  /** Letters, digits and hyphens, and no other figure's on the same page. */
  readonly id: string;
  /** What it shows, for those who can't see it and above it for those who can. */
  readonly title: string;
  readonly time: ChartTime;
  readonly range: PressureRange;
  readonly curve: DrawnCurve;
  /** What the curve is called where there are others. */
  readonly name: string;
  /** Sensors recorded beside it: what a line may join. */
  readonly beside: readonly {
    readonly name: string;
    readonly pieces: readonly (readonly CurvePlace[])[];
  }[];
  /** What else is told of its readings, in strips along the foot. */
  readonly strips: readonly FigureStrip[];
  /** The curve to come, or a fitted one, and its band; empty where there is none. */
  readonly fit: readonly CurvePoint[];
  readonly fitName: string;
  readonly lines: readonly ChartLine[];
  readonly flags: readonly ChartFlag[];
  /** Set into the figure's ground, as 'Rehearsal'; empty for a job. */
  readonly ground: string;
  /** Each reading shows as a point, as where they come minutes apart. */
  readonly points: boolean;
  readonly speech: Speech;
}
