/** Invented sessions as the score of the stages takes them. */
import type { Mark, MarkKind } from '../../protocol/mark.ts';
import { historyOf } from './invented-curves.ts';
import { inventSession, type InventedSession, type SessionKind } from './invented-session.ts';
import type { TrueStages } from './stage-score.ts';

export function inventedTruth(seed: number, kind: SessionKind): TrueStages {
  const { points, endS, stages } = inventSession(seed, kind);
  return { history: historyOf(points), marks: marksOf(stages), endS, stages };
}

/** As a technician sets them who forgets none. */
function marksOf(stages: InventedSession['stages']): Mark[] {
  return stages.flatMap(({ stage, fromS }, at) => {
    const kind = kindOf(stage, at);
    return kind ? [{ id: at, kind, elapsedS: fromS, text: '', madeBy: 'hand' as const }] : [];
  });
}

function kindOf(stage: InventedSession['stages'][number]['stage'], at: number): MarkKind | null {
  switch (stage) {
    case 'waiting':
      return null;
    case 'pull_down':
      return at === 1 ? 'pump_on' : 'reopened';
    case 'rise':
      return 'isolated';
    case 'pump_stopped':
      return 'pump_off';
    case 'nitrogen_break':
      return 'nitrogen_break';
    case 'vented':
      // There is no mark for letting air in.
      return null;
  }
}
