/** Which stretch of data time the chart shows: pure. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions, Forecast } from '../analysis/conclusions.ts';

export interface TimeRange {
  readonly fromS: number;
  readonly toS: number;
}

export interface ChartTime extends TimeRange {
  /** Where the time axis begins to count: pump on, or isolation. */
  readonly originS: number;
  /** Linear from isolation on, where a leak is a straight line; logarithmic before. */
  readonly axis: 'log' | 'linear';
}

const SHORTEST_S = 300;
/** The coming part takes no more than this share of the width, or the curve would be squeezed. */
const MOST_TO_COME = 0.55;

export function chartTime(
  conclusions: Conclusions | null,
  sheet: Sheet,
  marks: readonly Mark[],
  latestS: number,
): ChartTime {
  if (conclusions?.stage.name === 'rise') {
    const originS = conclusions.stage.sinceS;
    const longS = Math.max(sheet.holdS, (latestS - originS) * 1.02);
    return { axis: 'linear', originS, fromS: originS - longS * 0.02, toS: originS + longS };
  }
  const originS = pumpOnS(marks, latestS);
  const pastS = Math.max(latestS - originS, 0);
  const comingS = Math.min(
    horizonS(conclusions?.forecast ?? null),
    Math.max(SHORTEST_S, (pastS * MOST_TO_COME) / (1 - MOST_TO_COME)),
  );
  const longS = stepUp(Math.max(SHORTEST_S, pastS * 1.04, pastS + comingS));
  const marginS = originS > 0 ? longS * 0.02 : 0;
  return { axis: 'log', originS, fromS: originS - marginS, toS: originS + longS };
}

/** As far as the forecast says something about target and depth. */
function horizonS(forecast: Forecast | null): number {
  if (forecast === null) return 0;
  const until = [forecast.remaining, forecast.remainingToIsolation].map((remaining) =>
    remaining === null ? 0 : (remaining.p90S ?? remaining.p50S * 1.5),
  );
  return Math.max(...until) * 1.1;
}

function pumpOnS(marks: readonly Mark[], latestS: number): number {
  return marks
    .filter((mark) => mark.kind === 'pump_on' && mark.elapsedS <= latestS)
    .reduce((last, mark) => Math.max(last, mark.elapsedS), 0);
}

/** Grows by steps, so that the axis stands still most of the time. */
function stepUp(seconds: number): number {
  const step = 10 ** Math.floor(Math.log10(seconds / 60)) * 30;
  return Math.ceil(seconds / step) * step;
}
