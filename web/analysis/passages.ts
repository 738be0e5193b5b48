/** The stages that a recording went through, each with what was concluded at its end. */
import type { Conclusions } from './conclusions.ts';
import { gridTime, JUDGING_GRID_S } from './readings/judging-grid.ts';

export interface Passage {
  /** As judged at the last point of the grid that belongs to the stage. */
  readonly conclusions: Conclusions;
  /** When the stage after it began, or the present. */
  readonly untilS: number;
}

/** A day with more stages than this is told from its end. */
const MOST = 40;

/**
 * Goes back from the end: what stood just before a stage began is the stage before it. So a blank in
 * the curve that turned out to be nothing is no stage either.
 * @param judgeAt any point of the judging grid
 * @param endS the last point of the grid
 * @returns the earliest first
 */
export function passages(judgeAt: (nowS: number) => Conclusions, endS: number): Passage[] {
  const found: Passage[] = [];
  let nowS = endS;
  let untilS = endS;
  while (nowS >= 0 && found.length < MOST) {
    const conclusions = judgeAt(nowS);
    found.unshift({ conclusions, untilS });
    untilS = Math.min(conclusions.stage.sinceS, untilS);
    nowS = Math.min(gridTimeBefore(untilS), nowS - JUDGING_GRID_S);
    if (conclusions.stage.name === 'waiting') break;
  }
  return found;
}

function gridTimeBefore(elapsedS: number): number {
  const at = gridTime(elapsedS);
  return at < elapsedS ? at : at - JUDGING_GRID_S;
}
