/** The holds among the stages of a job, each as it was judged at its end. */
import type { Conclusions, Rise, Stage } from './conclusions.ts';
import type { Passage } from './passages.ts';

export interface JudgedHold {
  readonly rise: Rise;
  /** As judged then. */
  readonly conclusions: Conclusions;
  readonly untilS: number;
}

/** A system that was opened after its hold is still judged by that hold: then the end says it. */
export function judgedHolds(passages: readonly Passage[]): JudgedHold[] {
  return passages.flatMap(({ conclusions, untilS }, at) => {
    if (conclusions.stage.name !== 'rise') return [];
    const next = passages[at + 1]?.conclusions;
    const rise = next !== undefined && isFilled(next.stage) ? next.rise : conclusions.rise;
    return rise === null ? [] : [{ rise, conclusions: { ...conclusions, rise }, untilS }];
  });
}

function isFilled({ name }: Stage): boolean {
  return name === 'vented' || name === 'nitrogen_break';
}
