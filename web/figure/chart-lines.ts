/** The lines and flags of a chart: limits, targets, and what happened when. Pure. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { PressureUnit } from '../../protocol/units.ts';
import type { Conclusions, Forecast } from '../analysis/conclusions.ts';
import {
  CHART_WORDS,
  sayDepthLine,
  sayFloorLine,
  sayRuleLine,
  sayTargetLine,
} from '../words/say-chart.ts';
import { sayMoment } from '../words/say-duration.ts';
import { sayMark } from '../words/say-mark.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';
import type { ChartTime } from './time-range.ts';

export interface ChartLine {
  readonly pressurePa: number;
  readonly label: string;
  readonly dashed: boolean;
  /** A limit that was set, or a level that the curve heads for. */
  readonly kind: 'limit' | 'floor';
}

export interface ChartFlag {
  readonly elapsedS: number;
  readonly label: string;
}

/** A floor that is known no better than to this factor is no line to look at. A setting of ours. */
const FLOOR_KNOWN_TO = 3;

export function chartLines(
  time: ChartTime,
  sheet: Sheet,
  units: UnitsOfChoice,
  forecast: Forecast | null = null,
): ChartLine[] {
  const unit = units.pressure;
  if (time.axis === 'linear') {
    return [
      {
        pressurePa: sheet.endLimitPa,
        label: sayRuleLine(sheet, unit),
        dashed: false,
        kind: 'limit',
      },
    ];
  }
  return [
    { pressurePa: sheet.targetPa, label: sayTargetLine(sheet, unit), dashed: false, kind: 'limit' },
    {
      pressurePa: sheet.isolateAtPa,
      label: sayDepthLine(sheet, unit),
      dashed: true,
      kind: 'limit',
    },
    ...floorLine(forecast, unit),
  ];
}

/** Where the curve heads for, as far as that is known at all. */
function floorLine(forecast: Forecast | null, unit: PressureUnit): ChartLine[] {
  const floorPa = forecast?.floorPa ?? null;
  if (floorPa === null || floorPa.high > FLOOR_KNOWN_TO * floorPa.low) return [];
  const label = sayFloorLine(floorPa.estimate, unit);
  return [{ pressurePa: floorPa.estimate, label, dashed: true, kind: 'floor' }];
}

/**
 * Those within the time shown, the earliest first.
 * @param moments what else happened, besides marks
 */
export function chartFlags(
  time: ChartTime,
  marks: readonly Mark[],
  conclusions: Conclusions | null,
  moments: readonly ChartFlag[] = [],
): ChartFlag[] {
  const named = (elapsedS: number, text: string) => ({
    elapsedS,
    label: `${sayMoment(elapsedS - time.originS)} ${text}`,
  });
  const flags = [
    ...marks.map((mark) => named(mark.elapsedS, sayMark(mark))),
    ...moments.map(({ elapsedS, label }) => named(elapsedS, label)),
  ];
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
