/** Pass rules by name, what they ask for, and how a hold stands by them. */
import type { PassRule } from '../../protocol/pass-rules.ts';
import type { LetsThrough, RuleJudgement } from '../analysis/verdict/judge-pass-rule.ts';
import { PA_M3_PER_MBAR_L } from '../analysis/flows/leak-rate.ts';
import type { NumberRow } from './number-row.ts';
import { sayDuration } from './say-duration.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayReading, saySetting, saySettingPerMinute } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { Speech } from './speech.ts';

/** @param isUnentered nobody has entered figures, so that they are this program's own */
export function sayRuleName({ id }: PassRule, isUnentered: boolean, { wording }: Speech): string {
  return isUnentered ? wording.passRules.unentered : wording.passRules.names[id];
}

/** Where its figures come from, and how far to trust that. */
export function sayRuleSource(
  { source }: PassRule,
  isUnentered: boolean,
  { wording }: Speech,
): string {
  const words = wording.passRules;
  if (isUnentered) return words.noStandard;
  if (source === null) return words.asEntered;
  const { document, clause, evidence } = source;
  const where = clause === null ? document : `${document}, ${clause}`;
  switch (evidence) {
    case 'read':
      return `${where}.`;
    case 'second_hand':
      return words.secondHand({ where });
    case 'memory':
      return words.memory({ where });
  }
}

/** 'Down to 300 micron; 1 h; then at most 500 micron.' */
export function sayRule(rule: PassRule, speech: Speech): string {
  const words = speech.wording.passRules;
  const pressure = (pressurePa: number) => ({ pressure: saySetting(pressurePa, speech) });
  const { beforePa, finalPa, holdS, endLimitPa, allowedRisePa } = rule;
  const parts = [
    ...beforePa.map((pressurePa) => words.broken(pressure(pressurePa))),
    ...(finalPa === null ? [] : [words.downTo(pressure(finalPa))]),
    ...(holdS === null ? [] : [words.hold({ length: sayDuration(holdS) })]),
    ...(endLimitPa === null ? [] : [words.thenAtMost(pressure(endLimitPa))]),
    ...(allowedRisePa === null ? [] : [words.risenBy(pressure(allowedRisePa))]),
  ];
  const text = parts.join('; ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** How the hold stands by the rule, a row for each thing it asks for. */
export function listRuleConditions(judgement: RuleJudgement, speech: Speech): NumberRow[] {
  const words = speech.wording.passRules;
  return judgement.conditions.map(({ kind, limitPa, shownPa, outcome }) => {
    const shown = shownPa === null ? '' : `${sayReading(shownPa, speech)}: `;
    return {
      name: words.conditions[kind]({ limit: saySetting(limitPa, speech) }),
      value: `${shown}${words.outcomesInFull[outcome]}`,
    };
  });
}

/** What of the rule this program does not look at. */
export function sayRuleLimits({ beforePa, coldestC }: PassRule, speech: Speech): string[] {
  const words = speech.wording.passRules;
  return [
    ...(beforePa.length === 0 ? [] : [words.evacuationsBefore({ count: beforePa.length })]),
    ...(coldestC === null
      ? []
      : [words.notColderThan({ temperature: sayTemperature(coldestC, speech) })]),
  ];
}

/** What a leak may be that this rule still passes: rules say nothing of a system's size. */
export function sayLetsThrough({ leakPaPerS, airPaM3PerS }: LetsThrough, speech: Speech): string {
  const words = speech.wording.numbers.rule;
  const inflow = saySettingPerMinute(leakPaPerS, speech);
  if (airPaM3PerS === null) return words.letsThroughWithoutVolume({ inflow });
  const air = sayMagnitude(airPaM3PerS / PA_M3_PER_MBAR_L, speech);
  return words.letsThrough({ inflow, air });
}
