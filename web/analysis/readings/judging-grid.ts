/** The moments at which is judged: a fixed grid of data time, that all who judge agree to the digit. */

/** Judging happens at whole multiples of this data time, s. */
export const JUDGING_GRID_S = 2;

/** The latest point of the judging grid that is no later than `elapsedS`. */
export function gridTime(elapsedS: number): number {
  return Math.floor(elapsedS / JUDGING_GRID_S) * JUDGING_GRID_S;
}

/**
 * The first point of the grid at which the second that `elapsedS` belongs to is over. For readings
 * minutes apart: at the point before, the latest of them would not be looked at until the next came.
 */
export function gridTimeAfter(elapsedS: number): number {
  return gridTime(Math.floor(elapsedS) + JUDGING_GRID_S);
}
