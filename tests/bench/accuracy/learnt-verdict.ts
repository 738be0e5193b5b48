/** How many rises a learner has to leave undecided if it is to be right of the others as often as the bar asks. */
import type { Verdict } from '../../../protocol/verdicts.ts';
import { boost } from './boosted-trees.ts';
import { isDecided, isRight } from './right-verdict.ts';
import type { RiseRow } from './rise-features.ts';

const KINDS = ['tight_dry', 'moisture', 'leak', 'leak_and_moisture'] as const;

/** What counts as right. */
export type Right = Parameters<typeof isRight>[3];

interface Call {
  readonly verdict: Verdict;
  /** How far it is ahead of the next likely word: log odds. */
  readonly sure: number;
  readonly row: RiseRow;
}

/** @returns what a learner of some rises says of others, the surest first */
export function callsOf(learnt: readonly RiseRow[], asked: readonly RiseRow[]): Call[] {
  const features = learnt.map((row) => row.features);
  const scores = KINDS.map((kind) =>
    boost(
      features,
      learnt.map(({ trial }) => trial.kind === kind),
    ),
  );
  return asked
    .map((row): Call => {
      const [best, next] = scores
        .map((score, k) => ({ kind: KINDS[k] ?? 'moisture', score: score(row.features) }))
        .sort((a, b) => b.score - a.score);
      if (!best || !next) throw new Error('there are four kinds');
      return { verdict: best.kind, sure: best.score - Math.max(next.score, 0), row };
    })
    .sort((a, b) => b.sure - a.sure);
}

/**
 * Where to draw the line is chosen on the very cases that are asked about: more than any judge can have.
 *
 * @param share of those decided that have to be right
 * @returns the least part that stays undecided
 */
export function leastUndecided(calls: readonly Call[], share: number, how: Right): number {
  let right = 0;
  let decided = 0;
  for (const [i, { verdict, row }] of calls.entries()) {
    right += Number(isRight(row.trial.kind, row.trial.leakPaPerS, verdict, how));
    if (right >= share * (i + 1)) decided = i + 1;
  }
  return 1 - decided / calls.length;
}

/** The judge's own, of the same rises. */
export function judged(asked: readonly RiseRow[], how: Right) {
  const decided = asked.filter(({ verdict }) => isDecided(verdict));
  const right = decided.filter(({ verdict, trial }) =>
    isRight(trial.kind, trial.leakPaPerS, verdict, how),
  );
  return { right: right.length / decided.length, undecided: 1 - decided.length / asked.length };
}
