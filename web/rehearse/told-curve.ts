/** The whole curve of a rehearsal with what the reveal adds: pure. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { type ChartFlag, chartFlags, chartLines } from '../figure/chart-lines.ts';
import { pressureRange } from '../figure/pressure-range.ts';
import type { ChartTime, TimeRange } from '../figure/time-range.ts';
import type { ChartPicture } from '../live/chart-picture.ts';
import type { ChannelReadings } from '../store/channel-readings.ts';
import { thinReadings } from '../store/thin-readings.ts';
import type { Speech } from '../words/speech.ts';

interface ToldFacts {
  readonly readings: ChannelReadings;
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  readonly moments: readonly ChartFlag[];
  readonly speech: Speech;
  /** A stretch chosen by hand, or null for all of it. */
  readonly zoom: TimeRange | null;
}

/** As shares of the whole: before it, and after it for the names of the lines. */
const BEFORE_SHARE = 0.02;
const AFTER_SHARE = 0.2;
const SHORTEST_S = 60;

export function toldCurve(facts: ToldFacts): ChartPicture {
  const { readings, marks, sheet, moments, speech, zoom } = facts;
  const time = { ...wholeTime(marks, readings.latest()?.elapsedS ?? 0), ...zoom };
  const series = thinReadings(readings, time.fromS, time.toS);
  return {
    time,
    range: pressureRange(time, series.pressurePa, null, sheet, speech.units.pressure),
    series,
    curve: [],
    name: '',
    beside: [],
    arrivals: [],
    remark: null,
    expected: [],
    lines: chartLines(time, sheet, speech),
    flags: chartFlags(time, marks, null, speech, moments),
    ground: speech.wording.chart.rehearsal,
    live: false,
    points: false,
    speech,
  };
}

/** Data time from which a rehearsal's moments are counted: the first time that the pump was started. */
export function firstPumpOnS(marks: readonly Mark[]): number {
  const starts = marks.filter(({ kind }) => kind === 'pump_on').map(({ elapsedS }) => elapsedS);
  return starts.length === 0 ? 0 : Math.min(...starts);
}

function wholeTime(marks: readonly Mark[], latestS: number): ChartTime {
  const originS = firstPumpOnS(marks);
  const longS = Math.max(latestS - originS, SHORTEST_S);
  return {
    axis: 'log',
    originS,
    fromS: originS - longS * BEFORE_SHARE,
    toS: originS + longS * (1 + AFTER_SHARE),
  };
}
