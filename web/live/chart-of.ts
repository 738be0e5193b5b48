/** From facts and conclusions to the picture of the chart. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, CurvePoint } from '../analysis/conclusions.ts';
import { chartFlags, chartLines } from '../figure/chart-lines.ts';
import { pressureRange } from '../figure/pressure-range.ts';
import { chartTime, type TimeRange } from '../figure/time-range.ts';
import type { ChannelReadings } from '../store/channel-readings.ts';
import { thinReadings } from '../store/thin-readings.ts';
import { CHART_WORDS, sayRiseRemark } from '../words/say-chart.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';
import type { ChartPicture } from './chart-picture.ts';

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

function comingCurve(conclusions: Conclusions | null): readonly CurvePoint[] {
  const forecast = conclusions?.forecast ?? null;
  return forecast === null || forecast.outcome === 'too_early' ? [] : forecast.curve;
}
