/** Where another job's curve lies among the readings of the one that is shown. Pure. */
import type { JobCurve } from '../../protocol/job-card.ts';
import type { BehindPiece } from '../chart/chart-picture.ts';
import type { Alignment } from './laid-behind.ts';

/** The moments of the job that is shown, s; null where it has none. */
export interface OwnMoments {
  readonly pullDownS: number | null;
  readonly isolatedS: number | null;
}

/**
 * The same moment of both lies at the same place.
 * @returns null where one of the two has no such moment
 */
export function placedBehind(
  curve: JobCurve,
  own: OwnMoments,
  from: Alignment,
): readonly BehindPiece[] | null {
  const theirs = from === 'pump_on' ? curve.pullDownS : curve.isolatedS;
  const ours = from === 'pump_on' ? own.pullDownS : own.isolatedS;
  if (theirs === null || ours === null) return null;
  const later = ours - theirs;
  return curve.pieces.map(({ elapsedS, pressurePa }) => ({
    elapsedS: elapsedS.map((atS) => atS + later),
    pressurePa,
  }));
}
