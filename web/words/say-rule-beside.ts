/** The pass rule in a line beside the physics, which it never outshouts. */
import type { Verdict } from '../analysis/conclusions.ts';
import type { HoldByRule } from '../analysis/hold-by-rule.ts';
import type { RuleOutcome } from '../analysis/judge-pass-rule.ts';
import { RULE_OUTCOMES, sayRuleName } from './say-pass-rule.ts';
import { sayReservation } from './say-reservation.ts';

export interface RuleBeside {
  /** 'Pass rule: not held long enough'. */
  readonly headline: string;
  readonly name: string;
  /** What has to be said with it; empty where nothing has. */
  readonly remark: string;
}

export function sayRuleBeside(byRule: HoldByRule, verdict: Verdict): RuleBeside {
  const { rule, isUnentered, judgement, withheldBy, foreseen } = byRule;
  // In short: there is little room beside a verdict.
  const name = isUnentered ? 'our settings' : sayRuleName(rule, false);
  if (judgement === null) return { headline: headline('asks for nothing'), name, remark: '' };
  const { outcome } = judgement;
  if (withheldBy !== null && (outcome !== 'fails' || withheldBy === 'not_the_system')) {
    const remark = `${capital(sayReservation(withheldBy))}.`;
    return { headline: headline('not judged'), name, remark };
  }
  const remark = remarkOn(outcome, foreseen, verdict);
  return { headline: headline(RULE_OUTCOMES[outcome]), name, remark };
}

function headline(outcome: string): string {
  return `Pass rule: ${outcome}`;
}

function remarkOn(outcome: RuleOutcome, foreseen: RuleOutcome | null, verdict: Verdict): string {
  switch (outcome) {
    case 'passes':
      return BESIDES_PASS[verdict];
    case 'within_gauge_error':
      return 'It could be either. A gauge that errs less, or a deeper start, would tell.';
    case 'not_held_long_enough':
      return foreseen === null ? '' : sayForeseen(foreseen, verdict);
    case 'fails':
      return verdict === 'tight_dry'
        ? 'The rise is small and levels off, but the rule decides.'
        : '';
    case 'not_seen':
      return 'No readings at the moment that counts.';
  }
}

/** A rule looks at a limit and not at what makes the pressure rise. */
const BESIDES_PASS: Readonly<Record<Verdict, string>> = {
  tight_dry: '',
  moisture: 'It lets this through; the moisture is there all the same.',
  leak: 'It lets this leak through: do not close up on it.',
  leak_and_moisture: 'It lets this leak and moisture through: do not close up on it.',
  undecided: 'That alone does not make the system tight and dry.',
};

/** A pass to come is not held out where the curve has not told yet what makes it rise. */
function sayForeseen(foreseen: RuleOutcome, verdict: Verdict): string {
  if (foreseen !== 'passes') return FORESEEN[foreseen];
  if (verdict === 'undecided') return '';
  return ['On this curve it will pass.', BESIDES_PASS[verdict]].filter(Boolean).join(' ');
}

const FORESEEN: Readonly<Record<Exclude<RuleOutcome, 'passes'>, string>> = {
  fails: 'On this curve it will fail.',
  within_gauge_error: 'On this curve it will come out close to the limit.',
  not_held_long_enough: '',
  not_seen: '',
};

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
