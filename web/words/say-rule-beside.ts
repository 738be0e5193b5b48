/** The pass rule in a line beside the physics, which it never outshouts. */
import type { Verdict } from '../../protocol/verdicts.ts';
import type { HoldByRule } from '../analysis/verdict/hold-by-rule.ts';
import type { RuleOutcome } from '../analysis/verdict/judge-pass-rule.ts';
import { sayRuleName } from './say-pass-rule.ts';
import { sayReservation } from './say-reservation.ts';
import type { Speech } from './speech.ts';

export interface RuleBeside {
  /** 'Pass rule: not held long enough'. */
  readonly headline: string;
  readonly name: string;
  /** What has to be said with it; empty where nothing has. */
  readonly remark: string;
}

export function sayRuleBeside(byRule: HoldByRule, verdict: Verdict, speech: Speech): RuleBeside {
  const words = speech.wording.ruleBeside;
  const { rule, isUnentered, judgement, withheldBy, foreseen } = byRule;
  // In short: there is little room beside a verdict.
  const name = isUnentered ? words.ourSettings : sayRuleName(rule, false, speech);
  const headline = (said: string) => words.headline({ outcome: said });
  if (judgement === null) return { headline: headline(words.asksForNothing), name, remark: '' };
  const { outcome } = judgement;
  if (withheldBy !== null && (outcome !== 'fails' || withheldBy === 'not_the_system')) {
    const remark = `${capital(sayReservation(withheldBy, speech))}.`;
    return { headline: headline(words.notJudged), name, remark };
  }
  const remark = remarkOn(outcome, foreseen, verdict, words);
  return { headline: headline(speech.wording.passRules.outcomes[outcome]), name, remark };
}

type Words = Speech['wording']['ruleBeside'];

function remarkOn(
  outcome: RuleOutcome,
  foreseen: RuleOutcome | null,
  verdict: Verdict,
  words: Words,
): string {
  switch (outcome) {
    case 'passes':
      // A rule looks at a limit and not at what makes the pressure rise.
      return words.besidesPass[verdict];
    case 'within_gauge_error':
      return words.couldBeEither;
    case 'not_held_long_enough':
      return foreseen === null ? '' : sayForeseen(foreseen, verdict, words);
    case 'fails':
      return verdict === 'tight_dry' ? words.smallButFails : '';
    case 'not_seen':
      return words.notSeen;
  }
}

/** A pass to come is not held out where the curve has not told yet what makes it rise. */
function sayForeseen(foreseen: RuleOutcome, verdict: Verdict, words: Words): string {
  if (foreseen !== 'passes') return words.foreseen[foreseen];
  if (verdict === 'undecided') return '';
  return [words.willPass, words.besidesPass[verdict]].filter(Boolean).join(' ');
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
