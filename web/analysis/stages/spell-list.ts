/** The stages of a job so far, for whoever looks at more than the present one. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import type { ToldHold, Stage } from '../conclusions.ts';
import type { History } from '../readings/history.ts';
import { stagesSoFar } from './stages-so-far.ts';

export interface SpellList {
  /** In order of time, each lasting until the next begins. */
  readonly stages: readonly Stage[];
  readonly holds: readonly ToldHold[];
}

/** @param marks in any order */
export function spellsUntil(
  history: History,
  marks: readonly Mark[],
  { targetPa }: Sheet,
  nowS: number,
): SpellList {
  const past = marks
    .filter(({ elapsedS }) => elapsedS <= nowS)
    .sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const { spells, holds } = stagesSoFar(history, past, targetPa, nowS).stages;
  return { stages: spells.map(({ stage }) => stage), holds };
}
