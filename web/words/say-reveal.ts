/** What a rehearsal really was, beside what was called. */
import type { Call, RehearsalCause, Reveal } from '../../protocol/api.ts';
import type { PressureUnit } from '../../protocol/units.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { saySetting } from './say-pressure.ts';
import { causeInSentence, nameCause } from './say-rehearsal-cause.ts';
import type { SaidConclusion } from './said-conclusion.ts';

type Named = Pick<Call, 'cause' | 'surePercent'>;

export const REVEAL_WORDS = {
  title: 'What it was',
  truth: 'What it was',
  tells: 'What told',
  when: 'When it told',
  curve: 'The whole curve, with the moment from which it told.',
  told: 'it told from here',
  called: 'your call',
  work: 'How it went',
  numbers: 'The numbers',
  job: 'Job',
  again: 'The same job again',
  helped: 'The helper worked pump and valves: of the work there is nothing to say.',
} as const;

export function sayCall({ cause, surePercent }: Named): string {
  return `${nameCause(cause)}, ${surePercent}\u00a0% sure`;
}

export function sayOutcome(call: Named | null, truth: RehearsalCause): SaidConclusion {
  const was = causeInSentence(truth);
  const sure = '';
  if (call === null) return { tone: 'calm', headline: `It was: ${was}.`, sure, detail: [] };
  const detail = [`Your call: ${sayCall(call)}.`];
  return call.cause === truth
    ? { tone: 'good', headline: `Right: ${was}.`, sure, detail }
    : { tone: 'warning', headline: `Not so. It was: ${was}.`, sure, detail };
}

/** From when on it could have been known, and when the call came.
 * @param originS data time from which moments are counted */
export function sayWhenItTold(
  { cause, toldS }: Pick<Reveal, 'cause' | 'toldS'>,
  calledS: number | null,
  originS: number,
): string {
  if (toldS === null) return `${neverTold(cause)}${calledAt(calledS, originS)}`;
  const told = `From ${sayMoment(toldS - originS)} on the curve differed from that of the same job in order.`;
  if (calledS === null) return told;
  const afterS = calledS - toldS;
  const distance = sayDuration(Math.abs(afterS));
  return `${told} Your call came ${afterS < 0 ? `${distance} before that: a guess.` : `${distance} later, at ${sayMoment(calledS - originS)}.`}`;
}

function neverTold(cause: RehearsalCause): string {
  if (cause === 'in_order') return 'That nothing is wrong is told by a full hold alone.';
  if (cause === 'radio') return 'Missing readings told, and nothing in the curve.';
  return 'As it was worked, the curve never differed from that of the same job in order.';
}

function calledAt(calledS: number | null, originS: number): string {
  return calledS === null ? '' : ` Your call came at ${sayMoment(calledS - originS)}.`;
}

interface RevealNumber {
  readonly name: string;
  readonly value: string;
}

export function listRevealNumbers(reveal: Reveal, unit: PressureUnit): RevealNumber[] {
  const { leakPaPerS, waterKgAtStart, ballastOpenAtStart } = reveal;
  return [
    {
      name: 'Steady inflow once valved off',
      value: leakPaPerS > 0 ? `${saySetting(leakPaPerS * 60, unit)} a minute` : 'none',
    },
    {
      name: 'Water at the start',
      value: waterKgAtStart > 0 ? `${sayNumber(waterKgAtStart * 1000, 2)} g` : 'none',
    },
    { name: 'Gas ballast at the start', value: ballastOpenAtStart ? 'open' : 'closed' },
  ];
}

/** A rehearsal's recording bears the name of its scenario, which is written for addresses. */
export function sayRehearsalTitle(title: string): string {
  return `Rehearsal: ${title.replaceAll('-', ' ')}`;
}
