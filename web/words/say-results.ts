/** How a trainee's calls have gone. */
import type { RehearsalResult } from '../../protocol/api.ts';
import { FEWEST_RESULTS, type CallScore } from '../analysis/call-score.ts';
import { CAUSE_WORDS } from './say-call.ts';
import { sayRehearsalTitle } from './say-reveal.ts';

export function sayScore(count: number, score: CallScore | null): string {
  if (score === null) {
    return `${count} of ${FEWEST_RESULTS} calls: too few to say how good they are.`;
  }
  const percent = (share: number) => Math.round(share * 100);
  const { estimate, low, high } = score.right;
  return (
    `${score.count} calls, ${percent(estimate)} % right (${percent(low)} to ${percent(high)} %, nine times out of ten), ` +
    `${percent(score.sureness)} % sure on average. ` +
    `Brier score ${score.brier.estimate.toFixed(2)} (0 is best, 0.25 is what saying 50 % each time comes to).`
  );
}

export function sayResult({ scenario, cause, surePercent, truth }: RehearsalResult): {
  readonly title: string;
  readonly text: string;
} {
  const called = `${CAUSE_WORDS[cause].name}, ${surePercent} % sure`;
  return {
    title: sayRehearsalTitle(scenario),
    text: cause === truth ? `Right: ${called}.` : `${called}. It was: ${CAUSE_WORDS[truth].name}.`,
  };
}
