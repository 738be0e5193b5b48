/** What the pass rule asks for, how the hold stands by it, and what leak it lets through. */
import type { HoldByRule } from '../analysis/hold-by-rule.ts';
import type { RuleJudgement } from '../analysis/judge-pass-rule.ts';
import type { NumberGroup, NumberRow } from './number-row.ts';
import {
  listRuleConditions,
  sayLetsThrough,
  sayRule,
  sayRuleLimits,
  sayRuleName,
  sayRuleSource,
} from './say-pass-rule.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export function listRuleNumbers(byRule: HoldByRule, units: UnitsOfChoice): NumberGroup {
  const { rule, isUnentered, judgement, withheldBy, letsThrough } = byRule;
  const conditions: NumberRow[] =
    judgement === null || withheldBy === 'not_the_system'
      ? []
      : listRuleConditions(judgement, units);
  return {
    title: 'By the pass rule',
    rows: [
      { name: 'Rule', value: sayRuleName(rule, isUnentered) },
      { name: 'Asks for', value: sayRule(rule, units) },
      ...conditions,
      ...(judgement === null ? [] : [{ name: 'Gauge’s error', value: sayGaugeError(judgement) }]),
    ],
    notes: [
      `Source: ${sayRuleSource(rule, isUnentered)}`,
      ...sayRuleLimits(rule, units),
      letsThrough === null
        ? 'What leak this rule lets through is not to be said: it names no hold, no limit on it, or the start is above it.'
        : sayLetsThrough(letsThrough, units),
    ],
  };
}

function sayGaugeError({ gaugeErrorShare, gaugeErrorAssumed }: RuleJudgement): string {
  const percent = `${Number((gaugeErrorShare * 100).toPrecision(3))} % of the reading, either way`;
  return gaugeErrorAssumed ? `${percent} (taken: nobody entered it)` : percent;
}
