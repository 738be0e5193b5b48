/** Pull-downs, holds and repeated holds of the second world, with what went on in each. */
import type { Mark } from '../../../protocol/mark.ts';
import { historyOf } from '../../support/invented-curves.ts';
import { pullDownCase } from '../../support/second-world/pull-down-case.ts';
import { repeatHoldCase } from '../../support/second-world/repeat-hold-case.ts';
import { riseCase } from '../../support/second-world/rise-case.ts';
import type { TrueStages } from '../../support/stage-score.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';

export function secondWorldTruths(seed: number): TrueStages[] {
  const pulled = pullDownCase(seed);
  return [
    truthOf(pulled.points, pulled.marks, [{ stage: 'pull_down', fromS: pulled.pumpOnS }]),
    heldTruth(riseCase(seed)),
    heldTruth(repeatHoldCase(seed)),
  ];
}

/** Its recording begins in the midst of the pull-down. */
function heldTruth({ points, marks }: Pick<TrueRecording, 'points' | 'marks'>): TrueStages {
  const stages = marks.flatMap(({ kind, elapsedS: fromS }): TrueStages['stages'] => {
    if (kind === 'isolated') return [{ stage: 'rise', fromS }];
    return kind === 'reopened' ? [{ stage: 'pull_down', fromS }] : [];
  });
  const fromS = points[0]?.elapsedS ?? 0;
  return truthOf(points, marks, [{ stage: 'pull_down', fromS }, ...stages]);
}

interface TrueRecording {
  readonly points: readonly HistoryPoint[];
  readonly marks: readonly Mark[];
}

function truthOf(
  points: TrueRecording['points'],
  marks: TrueRecording['marks'],
  stages: TrueStages['stages'],
): TrueStages {
  return {
    history: historyOf(points),
    marks,
    endS: points.at(-1)?.elapsedS ?? 0,
    stages: [{ stage: 'waiting', fromS: 0 }, ...stages],
  };
}
