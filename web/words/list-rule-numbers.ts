/** What the pass rule asks for, how the hold stands by it, and what leak it lets through. */
import type { HoldByRule } from '../analysis/verdict/hold-by-rule.ts';
import type { RuleJudgement } from '../analysis/verdict/judge-pass-rule.ts';
import type { NumberGroup, NumberRow } from './number-row.ts';
import {
  listRuleConditions,
  sayLetsThrough,
  sayRule,
  sayRuleLimits,
  sayRuleName,
  sayRuleSource,
} from './say-pass-rule.ts';
import { sayExactly } from './say-number.ts';
import type { Speech } from './speech.ts';

export function listRuleNumbers(byRule: HoldByRule, speech: Speech): NumberGroup {
  const words = speech.wording.numbers.rule;
  const { rule, isUnentered, judgement, withheldBy, letsThrough } = byRule;
  const conditions: NumberRow[] =
    judgement === null || withheldBy === 'not_the_system'
      ? []
      : listRuleConditions(judgement, speech);
  return {
    title: words.title,
    rows: [
      { name: words.rule, value: sayRuleName(rule, isUnentered, speech) },
      { name: words.asksFor, value: sayRule(rule, speech) },
      ...conditions,
      ...(judgement === null
        ? []
        : [{ name: words.gaugeError, value: sayGaugeError(judgement, speech) }]),
    ],
    notes: [
      words.source({ source: sayRuleSource(rule, isUnentered, speech) }),
      ...sayRuleLimits(rule, speech),
      letsThrough === null ? words.letsThroughUnsaid : sayLetsThrough(letsThrough, speech),
    ],
  };
}

function sayGaugeError(
  { gaugeErrorShare, gaugeErrorAssumed }: RuleJudgement,
  speech: Speech,
): string {
  const words = speech.wording.numbers.rule;
  const percent = sayExactly(Number((gaugeErrorShare * 100).toPrecision(3)), speech);
  return gaugeErrorAssumed ? words.eitherWayTaken({ percent }) : words.eitherWay({ percent });
}
