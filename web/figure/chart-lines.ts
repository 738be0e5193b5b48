/** The lines and flags of a chart: limits, targets, and what happened when. Pure. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, Forecast } from '../analysis/conclusions.ts';
import { sayDepthLine, sayFloorLine, sayRuleLine, sayTargetLine } from '../words/say-chart.ts';
import { sayMoment } from '../words/say-duration.ts';
import { sayMark } from '../words/say-mark.ts';
import type { Speech } from '../words/speech.ts';
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
  speech: Speech,
  forecast: Forecast | null = null,
): ChartLine[] {
  if (time.axis === 'linear') {
    return [
      {
        pressurePa: sheet.endLimitPa,
        label: sayRuleLine(sheet, speech),
        dashed: false,
        kind: 'limit',
      },
    ];
  }
  return [
    {
      pressurePa: sheet.targetPa,
      label: sayTargetLine(sheet, speech),
      dashed: false,
      kind: 'limit',
    },
    {
      pressurePa: sheet.isolateAtPa,
      label: sayDepthLine(sheet, speech),
      dashed: true,
      kind: 'limit',
    },
    ...floorLine(forecast, speech),
  ];
}

/** Where the curve heads for, as far as that is known at all. */
function floorLine(forecast: Forecast | null, speech: Speech): ChartLine[] {
  const floorPa = forecast?.floorPa ?? null;
  if (floorPa === null || floorPa.high > FLOOR_KNOWN_TO * floorPa.low) return [];
  const label = sayFloorLine(floorPa.estimate, speech);
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
  speech: Speech,
  moments: readonly ChartFlag[] = [],
): ChartFlag[] {
  const named = (elapsedS: number, text: string) => ({
    elapsedS,
    label: `${sayMoment(elapsedS - time.originS)} ${text}`,
  });
  const flags = [
    ...marks.map((mark) => named(mark.elapsedS, sayMark(mark, speech))),
    ...moments.map(({ elapsedS, label }) => named(elapsedS, label)),
  ];
  const rise = conclusions?.rise ?? null;
  // Before there is a verdict the moment wanders about.
  if (rise !== null && rise.changeoverS !== null && rise.verdict !== 'undecided') {
    flags.push(named(rise.sinceS + rise.changeoverS, speech.wording.chart.changeover));
  }
  const isolationMarked = marks.some((mark) => mark.kind === 'isolated');
  if (rise !== null && !isolationMarked)
    flags.push(named(rise.sinceS, speech.wording.chart.isolated));
  return flags
    .filter(
      ({ elapsedS }) =>
        elapsedS >= time.fromS && elapsedS <= time.toS && elapsedS >= time.originS - 1,
    )
    .sort((a, b) => a.elapsedS - b.elapsedS);
}
