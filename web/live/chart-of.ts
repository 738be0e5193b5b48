/** From facts and conclusions to the picture of the chart. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, CurvePoint, Remaining } from '../analysis/conclusions.ts';
import { type ChartFlag, chartFlags, chartLines } from '../figure/chart-lines.ts';
import { pressureRange } from '../figure/pressure-range.ts';
import { chartTime, type TimeRange } from '../figure/time-range.ts';
import type { ExpectedCurve } from '../plan/expected-pull-down.ts';
import { expectedStartS } from '../plan/place-expected.ts';
import type { ChannelReadings } from '../store/channel-readings.ts';
import { thinReadings } from '../store/thin-readings.ts';
import { sayRiseRemark } from '../words/say-chart.ts';
import type { Speech } from '../words/speech.ts';
import type { Arrival, BesideLine, ChartPicture, ExpectedLine } from './chart-picture.ts';

interface ChartFacts {
  readonly readings: ChannelReadings;
  /** What its sensor is called, and the other sensors of the recording. */
  readonly name: string;
  readonly beside: (range: TimeRange) => readonly BesideLine[];
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  readonly conclusions: Conclusions | null;
  readonly speech: Speech;
  readonly rehearsal: boolean;
  /** Typed by hand: each reading is a point, and nothing is missing between two. */
  readonly typedIn: boolean;
  /** What the rig should manage, or null while that is not known. */
  readonly expected: ExpectedCurve | null;
  readonly live: boolean;
  /** Whether forecast and fit may be shown: not for a stale reading. */
  readonly foresees: boolean;
  /** What a rehearsal's reveal adds to the marks. */
  readonly moments: readonly ChartFlag[];
  /** A stretch chosen by hand, or null for the usual one. */
  readonly zoom: TimeRange | null;
}

export function chartOf(facts: ChartFacts): ChartPicture {
  const { readings, marks, sheet, conclusions, speech, zoom } = facts;
  const latestS = readings.length === 0 ? 0 : readings.elapsedS(readings.length - 1);
  const usual = chartTime(conclusions, sheet, marks, latestS);
  const time = zoom === null ? usual : { ...usual, ...zoom };
  const series = thinReadings(readings, time.fromS, time.toS, facts.typedIn);
  const beside = facts.beside(time);
  const besidePa = beside.flatMap(({ pieces }) => pieces.flat().map((place) => place.pressurePa));
  const drawnPa = beside.length === 0 ? series.pressurePa : [...series.pressurePa, ...besidePa];
  const range = pressureRange(time, drawnPa, conclusions, sheet, speech.units.pressure);
  const rise = conclusions?.rise ?? null;
  const inRise = time.axis === 'linear' && rise !== null;
  return {
    time,
    range,
    series,
    name: facts.name,
    beside,
    curve: facts.foresees ? (inRise ? rise.curve : comingCurve(conclusions)) : [],
    arrivals: facts.foresees && !inRise ? arrivals(conclusions, sheet) : [],
    remark: inRise
      ? { text: sayRiseRemark(rise, speech), warning: rise.verdict.startsWith('leak') }
      : null,
    expected: expectedLine(facts),
    lines: chartLines(time, sheet, speech, facts.foresees ? (conclusions?.forecast ?? null) : null),
    flags: chartFlags(time, marks, conclusions, speech, facts.moments),
    ground: facts.rehearsal ? speech.wording.chart.rehearsal : '',
    live: facts.live,
    points: facts.typedIn,
    speech,
  };
}

function expectedLine({ expected, readings, conclusions }: ChartFacts): ExpectedLine {
  const startS = expected === null ? null : expectedStartS(expected, readings, conclusions);
  if (expected === null || startS === null) return [];
  return expected.map(({ sinceS, pressurePa }) => ({ elapsedS: startS + sinceS, pressurePa }));
}

function arrivals(conclusions: Conclusions | null, sheet: Sheet): Arrival[] {
  const forecast = conclusions?.forecast ?? null;
  if (conclusions === null || forecast === null) return [];
  const at = (pressurePa: number, remaining: Remaining | null): Arrival[] => {
    // What is reached has no time to come.
    if (remaining === null || remaining.p50S <= 0) return [];
    const { nowS } = conclusions;
    const latestS = remaining.p90S === null ? null : nowS + remaining.p90S;
    const middleS = nowS + remaining.p50S;
    return [{ pressurePa, earliestS: nowS + remaining.p10S, middleS, latestS }];
  };
  return [
    ...(forecast.outcome === 'reaches' ? at(sheet.targetPa, forecast.remaining) : []),
    ...at(sheet.isolateAtPa, forecast.remainingToIsolation),
  ];
}

function comingCurve(conclusions: Conclusions | null): readonly CurvePoint[] {
  const forecast = conclusions?.forecast ?? null;
  return forecast === null || forecast.outcome === 'too_early' ? [] : forecast.curve;
}
