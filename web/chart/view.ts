/** Which stretch of time a person chose to see, and what becomes of it as time goes on: pure. */
import type { ChartTime, TimeRange } from '../figure/time-range.ts';

export type View =
  /** Everything that was recorded. */
  | { readonly kind: 'all' }
  /** The present stays where it is in the picture; the right edge is so far ahead of it, s. */
  | { readonly kind: 'follow'; readonly widthS: number; readonly aheadS: number }
  /** Stays where it is. */
  | { readonly kind: 'stay'; readonly fromS: number; readonly toS: number };

/** What there is to be seen, and where in it the present is, s. */
export interface Bounds extends TimeRange {
  readonly latestS: number;
}

/** A setting of ours: shorter, and a pull-down is nothing but noise. */
const SHORTEST_S = 10;

export function boundsOf(usual: TimeRange, firstS: number, latestS: number): Bounds {
  const toS = Math.max(usual.toS, latestS);
  return { fromS: Math.min(usual.fromS, firstS), toS, latestS };
}

/** The stretch that a view shows now; null is the usual one. */
export function rangeOf(view: View | null, usual: TimeRange, bounds: Bounds): TimeRange {
  switch (view?.kind) {
    case undefined:
      return { fromS: usual.fromS, toS: usual.toS };
    case 'all':
      return { fromS: bounds.fromS, toS: bounds.toS };
    case 'follow': {
      const toS = bounds.latestS + view.aheadS;
      return clamped({ fromS: toS - view.widthS, toS }, bounds);
    }
    case 'stay':
      return clamped(view, bounds);
  }
}

/** A view of this stretch: it follows the present where that is in it. */
export function viewOf(wanted: TimeRange, bounds: Bounds): View {
  const { fromS, toS } = clamped(wanted, bounds);
  const { latestS } = bounds;
  if (toS - fromS >= bounds.toS - bounds.fromS) return { kind: 'all' };
  if (latestS < fromS || latestS > toS) return { kind: 'stay', fromS, toS };
  return { kind: 'follow', widthS: toS - fromS, aheadS: toS - latestS };
}

/**
 * @param factor below 1 zooms in
 * @param around the place that stays where it is, 0 left to 1 right
 */
export function zoomed(shown: TimeRange, factor: number, around: number, bounds: Bounds): View {
  const widthS = shown.toS - shown.fromS;
  const newS = Math.max(SHORTEST_S, widthS * factor);
  const fromS = shown.fromS + (widthS - newS) * around;
  return viewOf({ fromS, toS: fromS + newS }, bounds);
}

/** @param shift in widths, to the right */
export function moved(shown: TimeRange, shift: number, bounds: Bounds): View {
  const byS = (shown.toS - shown.fromS) * shift;
  return viewOf({ fromS: shown.fromS + byS, toS: shown.toS + byS }, bounds);
}

/** As wide as now, from the beginning of what was recorded. */
export function atBeginning(shown: TimeRange, bounds: Bounds): View {
  return moved(shown, (bounds.fromS - shown.fromS) / (shown.toS - shown.fromS), bounds);
}

/** How far from the right edge the present stands when one goes to it, in widths. A setting of ours. */
const AHEAD = 0.1;

/** As wide as now, with the present in it. */
export function atPresent(shown: TimeRange, bounds: Bounds): View {
  const widthS = shown.toS - shown.fromS;
  const toS = bounds.latestS + AHEAD * widthS;
  return viewOf({ fromS: toS - widthS, toS }, bounds);
}

/** So much of a picture of a rise may be what came before it. A setting of ours. */
const MOST_BEFORE = 0.1;

/** The axes for a stretch: in a rise, what came before it is looked at on the log axis that it had. */
export function axesFor(shown: TimeRange, usual: ChartTime, pullDownOriginS: number): ChartTime {
  const beforeS = usual.originS - shown.fromS;
  if (usual.axis === 'linear' && beforeS > MOST_BEFORE * (shown.toS - shown.fromS)) {
    return { axis: 'log', originS: pullDownOriginS, ...shown };
  }
  return { axis: usual.axis, originS: usual.originS, ...shown };
}

/** Neither shorter than can be read nor beyond what there is. */
function clamped({ fromS, toS }: TimeRange, bounds: Bounds): TimeRange {
  const longestS = bounds.toS - bounds.fromS;
  const widthS = Math.min(Math.max(toS - fromS, SHORTEST_S), longestS);
  const middleS = (fromS + toS) / 2;
  // What is too short grows about its middle; what is as long as it was stays exactly where it is.
  const wantedS = widthS === toS - fromS ? fromS : middleS - widthS / 2;
  const beginS = Math.min(Math.max(wantedS, bounds.fromS), bounds.toS - widthS);
  return { fromS: beginS, toS: beginS + widthS };
}
