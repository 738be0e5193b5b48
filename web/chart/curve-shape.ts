/** The shape of a drawn curve in a few numbers, for those who can't see it: pure. */
import type { TimeRange } from '../figure/time-range.ts';
import type { DrawnSeries } from '../store/drawn-curve.ts';
import type { CurveShape } from '../words/say-curve.ts';

/** Of what is drawn within a stretch; null where nothing was measured. */
export function curveShape(series: DrawnSeries, { fromS, toS }: TimeRange): CurveShape | null {
  const places = series.elapsedS.flatMap((elapsedS, row) => {
    const pressurePa = series.pressurePa[row] ?? null;
    const isShown = pressurePa !== null && elapsedS >= fromS && elapsedS <= toS;
    return isShown ? [{ elapsedS, pressurePa }] : [];
  });
  const [first, last] = [places[0], places.at(-1)];
  if (first === undefined || last === undefined) return null;
  const lowest = places.reduce((low, here) => (here.pressurePa < low.pressurePa ? here : low));
  const highest = places.reduce((high, here) => (here.pressurePa > high.pressurePa ? here : high));
  return { first, last, lowest, highest };
}
