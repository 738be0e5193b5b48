/** What a rehearsal really was, beside what was called. */
import type { Call, RehearsalCause, Reveal } from '../../protocol/api.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { saySettingPerMinute } from './say-pressure.ts';
import { causeInSentence, nameCause } from './say-rehearsal-cause.ts';
import type { Speech } from './speech.ts';

type Named = Pick<Call, 'cause' | 'surePercent'>;

export function sayCall({ cause, surePercent }: Named, speech: Speech): string {
  const percent = `${surePercent}\u00a0%`;
  return speech.wording.call.called({ cause: nameCause(cause, speech), percent });
}

export function sayOutcome(
  call: Named | null,
  truth: RehearsalCause,
  speech: Speech,
): SaidConclusion {
  const words = speech.wording.reveal;
  const cause = causeInSentence(truth, speech);
  const sure = '';
  if (call === null) return { tone: 'calm', headline: words.itWas({ cause }), sure, detail: [] };
  const detail = [words.yourCall({ call: sayCall(call, speech) })];
  return call.cause === truth
    ? { tone: 'good', headline: words.right({ cause }), sure, detail }
    : { tone: 'warning', headline: words.notSo({ cause }), sure, detail };
}

/** From when on it could have been known, and when the call came.
 * @param originS data time from which moments are counted */
export function sayWhenItTold(
  { cause, toldS }: Pick<Reveal, 'cause' | 'toldS'>,
  calledS: number | null,
  originS: number,
  { wording }: Speech,
): string {
  const words = wording.reveal;
  const moment = (elapsedS: number) => sayMoment(elapsedS - originS);
  if (toldS === null) {
    const told = neverTold(cause, words);
    return calledS === null ? told : words.callCame({ told, at: moment(calledS) });
  }
  const told = words.differedFrom({ at: moment(toldS) });
  if (calledS === null) return told;
  const length = sayDuration(Math.abs(calledS - toldS));
  return calledS < toldS
    ? words.callBefore({ told, length })
    : words.callAfter({ told, length, at: moment(calledS) });
}

function neverTold(cause: RehearsalCause, words: Speech['wording']['reveal']): string {
  if (cause === 'in_order') return words.neverInOrder;
  return cause === 'radio' ? words.neverRadio : words.neverDiffered;
}

interface RevealNumber {
  readonly name: string;
  readonly value: string;
}

export function listRevealNumbers(reveal: Reveal, speech: Speech): RevealNumber[] {
  const words = speech.wording.reveal;
  const { leakPaPerS, waterKgAtStart, ballastOpenAtStart } = reveal;
  return [
    {
      name: words.inflow,
      value: leakPaPerS > 0 ? saySettingPerMinute(leakPaPerS, speech) : words.none,
    },
    {
      name: words.water,
      value: waterKgAtStart > 0 ? `${sayNumber(waterKgAtStart * 1000, speech, 2)} g` : words.none,
    },
    { name: words.ballast, value: ballastOpenAtStart ? words.open : words.closed },
  ];
}
