/** Calls and truths of the rehearsals so far, and what they say of a trainee. */
import type { RehearsalResult } from '../../protocol/api.ts';
import { type CallScore, FEWEST_RESULTS } from '../analysis/training/call-score.ts';
import { sayNumber } from './say-number.ts';
import { causeInSentence } from './say-rehearsal-cause.ts';
import { sayCall } from './say-reveal.ts';
import type { Speech } from './speech.ts';

export function sayResult({ cause, surePercent, truth }: RehearsalResult, speech: Speech): string {
  const words = speech.wording.score;
  const call = sayCall({ cause, surePercent }, speech);
  return cause === truth
    ? words.called({ call })
    : words.calledButWas({ call, cause: causeInSentence(truth, speech) });
}

export function sayTooFew(count: number, { wording }: Speech): string {
  return wording.score.tooFew({ needed: String(FEWEST_RESULTS), count });
}

export interface ScoreRow {
  readonly name: string;
  readonly value: string;
  readonly remark: string;
}

export function listScore(score: CallScore, speech: Speech): ScoreRow[] {
  const words = speech.wording.score;
  const { count, right, sureness, brier } = score;
  const [low, high] = [percent(right.low), percent(right.high)];
  return [
    {
      name: words.rightName,
      value: words.of({ share: percent(right.estimate), count: String(count) }),
      remark: words.inTheLongRun({ low, high }),
    },
    { name: words.sureName, value: percent(sureness), remark: fit(score, speech) },
    {
      name: words.brierName,
      value: sayNumber(brier.estimate, speech, 2),
      remark: words.brierMeans({
        low: sayNumber(brier.low, speech, 2),
        high: sayNumber(brier.high, speech, 2),
        // Whoever is always half sure is off by a half, and a half squared is a quarter.
        half: sayNumber(0.25, speech, 2),
        fifty: percent(0.5),
      }),
    },
  ];
}

function fit({ sureness, right }: CallScore, { wording }: Speech): string {
  if (sureness > right.high) return wording.score.tooSure;
  return sureness < right.low ? wording.score.notSureEnough : wording.score.fits;
}

function percent(share: number): string {
  return `${Math.round(share * 100)}\u00a0%`;
}
