/** Where the signs of stretches stand: strips along the upper and the lower edge. Pure. */
import type { Stretch, StretchKind } from '../store/drawn-curve.ts';

export interface Lane {
  readonly kind: StretchKind;
  readonly edge: 'top' | 'bottom';
  /** Distance of the strip's outer side from its edge, CSS px. */
  readonly offset: number;
  readonly height: number;
}

/** CSS px. A gap has no strip: it takes the whole height. */
const HEIGHTS: Readonly<Record<Exclude<StretchKind, 'gap'>, number>> = {
  over_range: 14,
  fault: 14,
  under_range: 14,
  warming_up: 10,
  late: 9,
};
const EDGES = [
  { edge: 'top', kinds: ['over_range', 'fault'] },
  { edge: 'bottom', kinds: ['under_range', 'late', 'warming_up'] },
] as const;
const BETWEEN = 2;

/** Strips for the kinds that there are, and for no others. */
export function stretchLanes(stretches: readonly Stretch[]): Lane[] {
  const present = new Set(stretches.map(({ kind }) => kind));
  return EDGES.flatMap(({ edge, kinds }) => {
    let offset = 0;
    return kinds
      .filter((kind) => present.has(kind))
      .map((kind): Lane => {
        const lane = { kind, edge, offset, height: HEIGHTS[kind] };
        offset += lane.height + BETWEEN;
        return lane;
      });
  });
}

/** How much of an edge the strips take, CSS px. */
export function takenAt(edge: Lane['edge'], lanes: readonly Lane[]): number {
  const own = lanes.filter((lane) => lane.edge === edge);
  return Math.max(0, ...own.map(({ offset, height }) => offset + height));
}
