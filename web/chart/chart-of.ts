/** From facts and conclusions to the picture of the chart. */
import type { Mark } from '../../protocol/mark.ts';
import { isSimulated, isTypedIn, type Recording } from '../../protocol/recording.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, CurvePoint, Remaining } from '../analysis/conclusions.ts';
import { type ChartFlag, chartFlags, chartLines } from '../figure/chart-lines.ts';
import { pressureRange } from '../figure/pressure-range.ts';
import { chartTime, type TimeRange } from '../figure/time-range.ts';
import type { ExpectedCurve } from '../plan/expected-pull-down.ts';
import { expectedStartS } from '../plan/place-expected.ts';
import type { ChannelCurve } from '../store/channel-curve.ts';
import type { DrawnSeries } from '../store/drawn-curve.ts';
import { sayRiseRemark } from '../words/say-chart.ts';
import { sayForecast } from '../words/say-forecast.ts';
import type { Speech } from '../words/speech.ts';
import type {
  Arrival,
  BesideLine,
  ChartPicture,
  ExpectedLine,
  BehindPiece,
} from './chart-picture.ts';
import { axesFor, boundsOf, rangeOf, type View } from './view.ts';

interface ChartFacts {
  readonly curve: ChannelCurve;
  /** What its sensor is called, and the other sensors of the recording. */
  readonly name: string;
  readonly beside: (range: TimeRange) => readonly BesideLine[];
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  readonly conclusions: Conclusions | null;
  readonly speech: Speech;
  readonly recording: Pick<Recording, 'id' | 'origin' | 'startedAtMs' | 'takenFrom' | 'sensors'>;
  /** What the rig should manage, or null while that is not known. */
  readonly expected: ExpectedCurve | null;
  /** Another job's curve, laid where it belongs. */
  readonly behind: readonly BehindPiece[];
  readonly live: boolean;
  /** Whether forecast and fit may be shown: not for a stale reading. */
  readonly foresees: boolean;
  /** What a rehearsal's reveal adds to the marks. */
  readonly moments: readonly ChartFlag[];
  /** What a person chose to see, or null for the usual stretch. */
  readonly view: View | null;
}

export function chartOf(facts: ChartFacts): ChartPicture {
  const { marks, sheet, conclusions, speech, view, recording } = facts;
  const { readings } = facts.curve;
  const firstS = readings.length === 0 ? 0 : readings.elapsedS(0);
  const latestS = readings.length === 0 ? 0 : readings.elapsedS(readings.length - 1);
  const usual = chartTime(conclusions, sheet, marks, latestS);
  const bounds = boundsOf(usual, firstS, latestS);
  const pullDown = chartTime(null, sheet, marks, latestS);
  const time = axesFor(rangeOf(view, usual, bounds), usual, pullDown.originS);
  const series = facts.curve.drawn(time);
  const beside = facts.beside(time);
  const drawnPa = [series, ...beside.map((line) => line.series)].flatMap((drawn) =>
    pressuresIn(drawn, time),
  );
  const range = pressureRange(time, drawnPa, conclusions, sheet, speech.units.pressure);
  const rise = conclusions?.rise ?? null;
  const inRise = time.axis === 'linear' && rise !== null;
  return {
    time,
    usual,
    bounds,
    range,
    source: facts.curve,
    series,
    name: facts.name,
    beside,
    curve: facts.foresees ? (inRise ? rise.curve : comingCurve(conclusions)) : [],
    arrivals: facts.foresees && !inRise ? arrivals(conclusions, sheet) : [],
    remark: inRise
      ? { text: sayRiseRemark(rise, speech), warning: rise.verdict.startsWith('leak') }
      : null,
    expected: expectedLine(facts),
    behind: facts.behind,
    lines: chartLines(time, sheet, speech, facts.foresees ? (conclusions?.forecast ?? null) : null),
    flags: chartFlags(time, marks, conclusions, speech, facts.moments),
    ground: isSimulated(recording) ? speech.wording.chart.rehearsal : '',
    live: facts.live,
    // Each number that was typed is a point: the line between two is no more than a line.
    points: isTypedIn(recording),
    startedAtMs: clockOf(recording),
    sheet,
    conclusion: concluded(facts),
    about: {
      site: sheet.site,
      equipment: sheet.equipment,
      recordingId: recording.id,
      origin: isSimulated(recording) ? 'rehearsal' : recording.origin,
      sensors: [facts.name, ...beside.map(({ name }) => name)],
    },
    speech,
  };
}

/** A rehearsal has a time of its own, and a file does not say when it was measured. */
function clockOf({ origin, startedAtMs }: ChartFacts['recording']): number | null {
  return origin === 'sensor' || origin === 'typed_in' ? startedAtMs : null;
}

/** What lies beyond an edge is drawn for the line's sake, and must not stretch the axis. */
function pressuresIn(
  { elapsedS, pressurePa }: DrawnSeries,
  { fromS, toS }: TimeRange,
): (number | null)[] {
  return pressurePa.filter((_, row) => {
    const atS = elapsedS[row] ?? Number.NaN;
    return atS >= fromS && atS <= toS;
  });
}

/** Forecast or verdict in a few words; empty where nothing is concluded of the present. */
function concluded({ conclusions, foresees, sheet, speech }: ChartFacts): string {
  if (!foresees || conclusions === null) return '';
  if (conclusions.rise !== null) return speech.wording.verdict.names[conclusions.rise.verdict];
  const { forecast } = conclusions;
  return forecast === null ? '' : sayForecast(forecast, conclusions, sheet, speech).headline;
}

function expectedLine({ expected, curve, conclusions }: ChartFacts): ExpectedLine {
  const startS = expected === null ? null : expectedStartS(expected, curve.readings, conclusions);
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
