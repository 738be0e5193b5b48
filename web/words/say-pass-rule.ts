/** Pass rules by name, what they ask for, and how a hold stands by them. */
import type { PassRule, PassRuleId } from '../../protocol/pass-rules.ts';
import type {
  ConditionKind,
  LetsThrough,
  RuleJudgement,
  RuleOutcome,
} from '../analysis/judge-pass-rule.ts';
import { PA_M3_PER_MBAR_L } from '../analysis/leak-rate.ts';
import { sayDuration } from './say-duration.ts';
import { sayMagnitude } from './say-magnitude.ts';
import type { NumberRow } from './number-row.ts';
import { sayReading, saySetting } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export const PASS_RULE_NAMES: Readonly<Record<PassRuleId, string>> = {
  own: 'Equipment maker’s sheet, as entered',
  'ufgs-15182': 'UFGS-15182, 3.3.3',
  'ufgs-15741n': 'UFGS-15741N, triple evacuation',
  'au-nz-deep': 'Australia and New Zealand code, 5.4.1, deep evacuation',
  'au-nz-triple': 'Australia and New Zealand code, 5.4.2, triple evacuation',
  'canada-300': 'Canada, Environmental Code of Practice: 300 micron',
  'ashrae-guideline-3': 'ASHRAE Guideline 3',
  'ashrae-15-2': 'ASHRAE 15.2',
  'en-378-2': 'EN 378-2, ISO 5149-2',
};

/** @param isUnentered nobody has entered figures, so that they are this program's own */
export function sayRuleName({ id }: PassRule, isUnentered: boolean): string {
  return isUnentered ? 'settings of ours, none entered' : PASS_RULE_NAMES[id];
}

/** Where its figures come from, and how far to trust that. */
export function sayRuleSource({ source }: PassRule, isUnentered: boolean): string {
  if (isUnentered) return 'No standard: the equipment maker’s figures come first.';
  if (source === null) return 'As entered on the job sheet.';
  const { document, clause, evidence } = source;
  const where = clause === null ? document : `${document}, ${clause}`;
  switch (evidence) {
    case 'read':
      return `${where}.`;
    case 'second_hand':
      return `${where}. Restated by others: look it up before it counts.`;
    case 'memory':
      return `${where}. From memory: look it up before it counts.`;
  }
}

/** 'Down to 300 micron; 1 h; then at most 500 micron.' */
export function sayRule(rule: PassRule, units: UnitsOfChoice): string {
  const set = (pressurePa: number) => saySetting(pressurePa, units.pressure);
  const { beforePa, finalPa, holdS, endLimitPa, allowedRisePa } = rule;
  const parts = [
    ...beforePa.map((pressurePa) => `${set(pressurePa)}, broken with nitrogen`),
    ...(finalPa === null ? [] : [`down to ${set(finalPa)}`]),
    ...(holdS === null ? [] : [`hold ${sayDuration(holdS)}`]),
    ...(endLimitPa === null ? [] : [`then at most ${set(endLimitPa)}`]),
    ...(allowedRisePa === null ? [] : [`risen by at most ${set(allowedRisePa)}`]),
  ];
  const text = parts.join('; ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** In one or two words, as beside the verdict. */
export const RULE_OUTCOMES: Readonly<Record<RuleOutcome, string>> = {
  passes: 'passes',
  fails: 'fails',
  within_gauge_error: 'within the gauge’s error',
  not_held_long_enough: 'not held long enough',
  not_seen: 'not measured',
};

const RULE_OUTCOME_NAMES: Readonly<Record<RuleOutcome, string>> = {
  passes: 'keeps it',
  fails: 'breaks it',
  within_gauge_error: 'within the gauge’s error: it could be either',
  not_held_long_enough: 'not held long enough yet',
  not_seen: 'not measured',
};

const CONDITION_NAMES: Readonly<Record<ConditionKind, string>> = {
  final_pressure: 'Before the hold at most',
  end_limit: 'At its end at most',
  allowed_rise: 'Risen by at most',
};

/** How the hold stands by the rule, a row for each thing it asks for. */
export function listRuleConditions(judgement: RuleJudgement, units: UnitsOfChoice): NumberRow[] {
  return judgement.conditions.map(({ kind, limitPa, shownPa, outcome }) => {
    const shown = shownPa === null ? '' : `${sayReading(shownPa, units.pressure)}: `;
    return {
      name: `${CONDITION_NAMES[kind]} ${saySetting(limitPa, units.pressure)}`,
      value: `${shown}${RULE_OUTCOME_NAMES[outcome]}`,
    };
  });
}

/** What of the rule this program does not look at. */
export function sayRuleLimits({ beforePa, coldestC }: PassRule, units: UnitsOfChoice): string[] {
  return [
    ...(beforePa.length === 0
      ? []
      : [
          `The ${beforePa.length} evacuations before it are for you to check: this program judges the last hold.`,
        ]),
    ...(coldestC === null
      ? []
      : [
          `It holds only where nothing is colder than ${sayTemperature(coldestC, units.temperature)}.`,
        ]),
  ];
}

/** What a leak may be that this rule still passes: rules say nothing of a system's size. */
export function sayLetsThrough(
  { leakPaPerS, airPaM3PerS }: LetsThrough,
  units: UnitsOfChoice,
): string {
  const perMinute = saySetting(leakPaPerS * 60, units.pressure);
  const leak = `This rule passes a steady inflow of up to ${perMinute} a minute`;
  if (airPaM3PerS === null) return `${leak}; how much air that is needs the volume.`;
  return `${leak}: ${sayMagnitude(airPaM3PerS / PA_M3_PER_MBAR_L)} mbar·L/s of air into this volume.`;
}
