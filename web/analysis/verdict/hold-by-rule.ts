/** How a hold stands by the pass rule that was chosen for it, beside the physics. */
import { type PassRule, passRuleOf } from '../../../protocol/pass-rules.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../protocol/sheet.ts';
import type { Reservation, Rise } from '../conclusions.ts';
import type { HoldSeen } from '../rise/hold-seen.ts';
import {
  judgePassRule,
  type LetsThrough,
  letsThrough,
  type RuleJudgement,
  type RuleOutcome,
} from './judge-pass-rule.ts';
import { seesSystem } from './verdict.ts';

export interface HoldByRule {
  readonly rule: PassRule;
  /** Of the sheet's own fields, and nobody has entered any: the figures are this program's. */
  readonly isUnentered: boolean;
  /** Null where the rule asks for nothing that a gauge could show. */
  readonly judgement: RuleJudgement | null;
  /** Set where a pass by the rule would be none: then its outcome is not to be shown as one. */
  readonly withheldBy: Reservation | null;
  /** While it is not held long enough: what it will come to, as far as the physics foresees it. */
  readonly foreseen: RuleOutcome | null;
  /** The leak that this rule passes. */
  readonly letsThrough: LetsThrough | null;
}

/** Readings that keep a rule prove nothing under these. */
const WITHHOLDING: readonly Reservation[] = ['not_the_system', 'falling', 'isolation_unsure'];
const OWN_FIELDS = ['targetPa', 'holdS', 'endLimitPa', 'allowedRisePa'] as const;
/** A hold whose end is foreseen for about when the rule wants it, s: one point of the judging grid. */
const SAME_END_S = 2;

/**
 * @param sheet as it held then: a part has its own volume, and no rule passes a system by one
 * @param isolationSure false while the pump may still be pulling, by the curve
 */
export function holdByRule(
  rise: Rise,
  seen: HoldSeen,
  sheet: Sheet,
  isolationSure: boolean,
): HoldByRule {
  const rule = passRuleOf(sheet.passRule, sheet);
  const judgement = judgePassRule(rule, seen, sheet.gaugeErrorShare);
  const reservations: readonly Reservation[] = [
    ...(seesSystem(sheet) ? [] : (['not_the_system'] as const)),
    ...rise.reservations,
    ...(isolationSure ? [] : (['isolation_unsure'] as const)),
  ];
  return {
    rule,
    isUnentered: isRuleUnentered(sheet),
    judgement,
    withheldBy: reservations.find((one) => WITHHOLDING.includes(one)) ?? null,
    foreseen:
      judgement?.outcome === 'not_held_long_enough' ? foresee(rule, rise, seen, sheet) : null,
    letsThrough:
      seen.startPa === null ? null : letsThrough(rule, seen.startPa.estimate, sheet.volumeM3),
  };
}

/** Whether the rule is the sheet's own fields, and nobody has entered any. */
export function isRuleUnentered(sheet: Sheet): boolean {
  const isDefault = (field: (typeof OWN_FIELDS)[number]) => sheet[field] === DEFAULT_SHEET[field];
  return sheet.passRule === 'own' && OWN_FIELDS.every(isDefault);
}

/** By the same comparison, with the end of the hold as the fit has it in place of a reading. */
function foresee(rule: PassRule, rise: Rise, seen: HoldSeen, sheet: Sheet): RuleOutcome | null {
  const { endOfHold, curve } = rise;
  if (rule.holdS === null || curve.length === 0) return null;
  if (Math.abs(endOfHold.atS - rule.holdS) > SAME_END_S) return null;
  const ended: HoldSeen = {
    heldS: rule.holdS,
    startPa: seen.startPa,
    pressureAt: () => endOfHold,
  };
  return judgePassRule(rule, ended, sheet.gaugeErrorShare)?.outcome ?? null;
}
