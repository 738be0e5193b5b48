/** What a rise may be made of: inflow, what levels off with one time constant or another, what sinks. */

export interface Shape {
  readonly kind: 'leak' | 'release' | 'sinking';
  /** Time constant, s; 0 for the leak. */
  readonly tauS: number;
}

/** The grid of time constants begins here; quicker ones look like the valve being turned. */
const QUICKEST_S = 9;
/** Two neighbours, weighed freely, stand for any between them to 1 part in 500. */
const GRID_STEP = 1.6;
/**
 * The slowest, in lengths of what has been seen: what takes longer shows no bend within it, and counts
 * as inflow until a repeat hold says otherwise.
 */
const SLOWEST_LENGTHS = 5;
/** Equalisation along lines and through a sensor's passage, s: seconds to minutes. */
const SINKING_S = [10, 25, 60, 140] as const;

/** The leak first, then all that levels off from the quickest on, then what sinks. */
export function riseShapes(lengthS: number): Shape[] {
  const shapes: Shape[] = [{ kind: 'leak', tauS: 0 }];
  const steps = Math.round(
    Math.log((SLOWEST_LENGTHS * lengthS) / QUICKEST_S) / Math.log(GRID_STEP),
  );
  const step = ((SLOWEST_LENGTHS * lengthS) / QUICKEST_S) ** (1 / steps);
  for (let i = 0; i <= steps; i += 1) {
    shapes.push({ kind: 'release', tauS: QUICKEST_S * step ** i });
  }
  for (const tauS of SINKING_S) shapes.push({ kind: 'sinking', tauS });
  return shapes;
}

/**
 * Its value at a time since isolation: the leak's is the time itself, all others go from 0 to ±1 at
 * `lengthS`, so that a coefficient is what the shape has added by then, Pa.
 */
export function shapeAt({ kind, tauS }: Shape, heldS: number, lengthS: number): number {
  if (kind === 'leak') return heldS;
  const share = Math.expm1(-heldS / tauS) / Math.expm1(-lengthS / tauS);
  return kind === 'release' ? share : -share;
}

/** Its slope, 1/s. */
export function shapeRate({ kind, tauS }: Shape, heldS: number, lengthS: number): number {
  if (kind === 'leak') return 1;
  const rate = Math.exp(-heldS / tauS) / (-Math.expm1(-lengthS / tauS) * tauS);
  return kind === 'release' ? rate : -rate;
}
