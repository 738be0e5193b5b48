/** Calls and truths of the rehearsals so far, and what they say of a trainee. */
import type { RehearsalResult } from '../../protocol/api.ts';
import { type CallScore, FEWEST_RESULTS } from '../analysis/call-score.ts';
import { sayNumber } from './say-number.ts';
import { causeInSentence } from './say-rehearsal-cause.ts';
import { sayCall } from './say-reveal.ts';

export const RESULT_WORDS = {
  title: 'Calls so far',
  trainee: 'Whose',
  none: 'Nobody has made a call yet. It counts once it has been followed by the reveal.',
  right: 'Right',
  wrong: 'Not so',
  open: 'Open',
  brierName: 'Brier score',
  rightName: 'Right',
  sureName: 'Sure, on average',
} as const;

export function sayResult({ cause, surePercent, truth }: RehearsalResult): string {
  const called = `Called: ${sayCall({ cause, surePercent })}.`;
  return cause === truth ? called : `${called} It was: ${causeInSentence(truth)}.`;
}

export function sayTooFew(count: number): string {
  return `A score takes ${FEWEST_RESULTS} calls; so far there ${count === 1 ? 'is 1' : `are ${count}`}.`;
}

export interface ScoreRow {
  readonly name: string;
  readonly value: string;
  readonly remark: string;
}

export function listScore(score: CallScore): ScoreRow[] {
  const { count, right, sureness, brier } = score;
  return [
    {
      name: RESULT_WORDS.rightName,
      value: `${percent(right.estimate)} of ${count}`,
      remark: `in the long run between ${percent(right.low)} and ${percent(right.high)}`,
    },
    { name: RESULT_WORDS.sureName, value: percent(sureness), remark: fit(score) },
    {
      name: RESULT_WORDS.brierName,
      value: sayNumber(brier.estimate, 2),
      remark: `between ${sayNumber(brier.low, 2)} and ${sayNumber(brier.high, 2)}; 0 is best, 0.25 is what 50\u00a0% sure each time comes to`,
    },
  ];
}

function fit({ sureness, right }: CallScore): string {
  if (sureness > right.high) return 'surer than the calls bear out';
  if (sureness < right.low) return 'less sure than the calls would allow';
  return 'no different from being right, as far as so few calls can tell';
}

function percent(share: number): string {
  return `${Math.round(share * 100)}\u00a0%`;
}
