/** What a rise may be made of: inflow, and what levels off with one time constant or another. */

export interface Shape {
  readonly kind: 'leak' | 'release';
  /** Time constant, s; 0 for the leak. */
  readonly tauS: number;
}

/** The grid of time constants begins here; quicker ones look like the valve being turned. */
const QUICKEST_S = 12;
/** From one to the next; finer grids change no figure and cost more. */
const GRID_STEP = 1.5;
/**
 * The slowest, in lengths of what has been seen: what takes longer hardly bends within it, and counts
 * as inflow until a repeat hold says otherwise. With two lengths 12 and 21 in a hundred moist rises of two
 * worlds were said to leak after half an hour, with four 4 and 1 (`npm run accuracy`, training seeds).
 * Early in a hold nearly everything looks straight: so much longer ones are reckoned with, s. Settings of ours.
 */
const SLOWEST_LENGTHS = 4;
const AND_LONGER_S = 1000;

/** The leak first, then all that levels off from the quickest on. */
export function riseShapes(lengthS: number): Shape[] {
  const shapes: Shape[] = [{ kind: 'leak', tauS: 0 }];
  const slowestS = AND_LONGER_S + SLOWEST_LENGTHS * lengthS;
  // Always the same grid: one that moved with the hold would have the verdict waver with it.
  for (let tauS = QUICKEST_S; tauS < slowestS * Math.sqrt(GRID_STEP); tauS *= GRID_STEP) {
    shapes.push({ kind: 'release', tauS });
  }
  return shapes;
}

/**
 * Its value at a time since isolation: the leak's is the time itself, all others go from 0 to 1 at
 * `lengthS`, so that a coefficient is what the shape has added by then, Pa.
 */
export function shapeAt({ kind, tauS }: Shape, heldS: number, lengthS: number): number {
  return kind === 'leak' ? heldS : Math.expm1(-heldS / tauS) / Math.expm1(-lengthS / tauS);
}

/** The same at many times: what it is divided by is worked out once. */
export function shapeColumn(shape: Shape, heldS: Float64Array, lengthS: number): Float64Array {
  if (shape.kind === 'leak') return heldS.slice();
  const { tauS } = shape;
  const column = new Float64Array(heldS.length);
  const whole = Math.expm1(-lengthS / tauS);
  for (let i = 0; i < column.length; i += 1)
    column[i] = Math.expm1(-(heldS[i] ?? 0) / tauS) / whole;
  return column;
}

/** Its slope, 1/s. */
export function shapeRate({ kind, tauS }: Shape, heldS: number, lengthS: number): number {
  return kind === 'leak' ? 1 : Math.exp(-heldS / tauS) / (-Math.expm1(-lengthS / tauS) * tauS);
}
