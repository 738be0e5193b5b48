/** The whole curve of a rehearsal with what the reveal adds: pure. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { type ChartFlag, chartFlags, chartLines } from '../figure/chart-lines.ts';
import { pressureRange } from '../figure/pressure-range.ts';
import type { ChartTime } from '../figure/time-range.ts';
import type { ChartPicture } from '../chart/chart-picture.ts';
import { boundsOf, rangeOf, type View } from '../chart/view.ts';
import type { ChannelCurve } from '../store/channel-curve.ts';
import type { Speech } from '../words/speech.ts';

interface ToldFacts {
  readonly recordingId: number;
  readonly curve: ChannelCurve;
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  readonly moments: readonly ChartFlag[];
  readonly speech: Speech;
  /** What a person chose to see, or null for all of it. */
  readonly view: View | null;
}

/** As shares of the whole: before it, and after it for the names of the lines. */
const BEFORE_SHARE = 0.02;
const AFTER_SHARE = 0.2;
const SHORTEST_S = 60;

export function toldCurve(facts: ToldFacts): ChartPicture {
  const { curve, marks, sheet, moments, speech, view } = facts;
  const latestS = curve.readings.latest()?.elapsedS ?? 0;
  const whole = wholeTime(marks, latestS);
  const bounds = boundsOf(whole, whole.fromS, latestS);
  const time = { ...whole, ...rangeOf(view, whole, bounds) };
  const series = curve.drawn(time);
  return {
    time,
    usual: whole,
    bounds,
    source: curve,
    range: pressureRange(time, series.pressurePa, null, sheet, speech.units.pressure),
    series,
    curve: [],
    name: '',
    beside: [],
    arrivals: [],
    remark: null,
    expected: [],
    behind: [],
    lines: chartLines(time, sheet, speech),
    flags: chartFlags(time, marks, null, speech, moments),
    ground: speech.wording.chart.rehearsal,
    live: false,
    points: false,
    startedAtMs: null,
    sheet,
    conclusion: '',
    about: {
      site: '',
      equipment: '',
      recordingId: facts.recordingId,
      origin: 'rehearsal',
      sensors: [],
    },
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
