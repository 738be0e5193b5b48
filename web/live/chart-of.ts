/** From facts and conclusions to the picture of the chart. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, CurvePoint } from '../analysis/conclusions.ts';
import type { ChannelReadings } from '../store/channel-readings.ts';
import { thinReadings } from '../store/thin-readings.ts';
import {
  CHART_WORDS,
  sayDepthLine,
  sayRiseRemark,
  sayRuleLine,
  sayTargetLine,
} from '../words/say-chart.ts';
import { sayMoment } from '../words/say-duration.ts';
import { sayMark } from '../words/say-mark.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';
import type { ChartFlag, ChartLine, ChartPicture } from './chart-picture.ts';
import { pressureRange } from './pressure-range.ts';
import { chartTime, type ChartTime, type TimeRange } from './time-range.ts';

interface ChartFacts {
  readonly readings: ChannelReadings;
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  readonly conclusions: Conclusions | null;
  readonly units: UnitsOfChoice;
  readonly rehearsal: boolean;
  readonly live: boolean;
  /** Whether forecast and fit may be shown: not for a stale reading. */
  readonly foresees: boolean;
  /** A stretch chosen by hand, or null for the usual one. */
  readonly zoom: TimeRange | null;
}

export function chartOf(facts: ChartFacts): ChartPicture {
  const { readings, marks, sheet, conclusions, units, zoom } = facts;
  const latestS = readings.length === 0 ? 0 : readings.elapsedS(readings.length - 1);
  const usual = chartTime(conclusions, sheet, marks, latestS);
  const time = zoom === null ? usual : { ...usual, ...zoom };
  const series = thinReadings(readings, time.fromS, time.toS);
  const range = pressureRange(time, series.pressurePa, conclusions, sheet, units.pressure);
  const rise = conclusions?.rise ?? null;
  const inRise = time.axis === 'linear' && rise !== null;
  return {
    time,
    range,
    series,
    curve: facts.foresees ? (inRise ? rise.curve : comingCurve(conclusions)) : [],
    remark: inRise
      ? { text: sayRiseRemark(rise, units.pressure), warning: rise.verdict.startsWith('leak') }
      : null,
    lines: chartLines(time, sheet, units),
    flags: chartFlags(time, marks, conclusions),
    ground: facts.rehearsal ? CHART_WORDS.rehearsal : '',
    live: facts.live,
    units,
  };
}

function chartLines(time: ChartTime, sheet: Sheet, units: UnitsOfChoice): ChartLine[] {
  const unit = units.pressure;
  if (time.axis === 'linear') {
    return [{ pressurePa: sheet.endLimitPa, label: sayRuleLine(sheet, unit), dashed: false }];
  }
  return [
    { pressurePa: sheet.targetPa, label: sayTargetLine(sheet, unit), dashed: false },
    { pressurePa: sheet.isolateAtPa, label: sayDepthLine(sheet, unit), dashed: true },
  ];
}

function chartFlags(
  time: ChartTime,
  marks: readonly Mark[],
  conclusions: Conclusions | null,
): ChartFlag[] {
  const named = (elapsedS: number, text: string) => ({
    elapsedS,
    label: `${sayMoment(elapsedS - time.originS)} ${text}`,
  });
  const flags = marks.map((mark) => named(mark.elapsedS, sayMark(mark)));
  const rise = conclusions?.rise ?? null;
  // Before there is a verdict the moment wanders about.
  if (rise !== null && rise.changeoverS !== null && rise.verdict !== 'undecided') {
    flags.push(named(rise.sinceS + rise.changeoverS, CHART_WORDS.changeover));
  }
  const isolationMarked = marks.some((mark) => mark.kind === 'isolated');
  if (rise !== null && !isolationMarked) flags.push(named(rise.sinceS, CHART_WORDS.isolated));
  return flags
    .filter(
      ({ elapsedS }) =>
        elapsedS >= time.fromS && elapsedS <= time.toS && elapsedS >= time.originS - 1,
    )
    .sort((a, b) => a.elapsedS - b.elapsedS);
}

function comingCurve(conclusions: Conclusions | null): readonly CurvePoint[] {
  const forecast = conclusions?.forecast ?? null;
  return forecast === null || forecast.outcome === 'too_early' ? [] : forecast.curve;
}
