/** Which rule the hold is judged by, beside the physics: what it asks for, and where that stands. */
import { PASS_RULE_IDS, PASS_RULES, type PassRuleId } from '../../protocol/pass-rules.ts';
import { speech } from '../store/speech.ts';
import { sayRule, sayRuleLimits, sayRuleSource } from '../words/say-pass-rule.ts';
import type { SheetEntryForm } from './sheet-entry.ts';
import { textsForRule } from './sheet-form.ts';

export function RuleChoice({ form }: { readonly form: SheetEntryForm }) {
  const { texts, spoken, fill } = form;
  const { passRules, sheet: words } = speech.value.wording;
  const chosen = PASS_RULE_IDS.find((id) => id === texts.passRule) ?? 'own';
  const choose = (id: PassRuleId | undefined) => {
    if (id !== undefined) fill(textsForRule(id, texts, spoken));
  };
  return (
    <>
      <label class="wide">
        {words.names.passRule}
        <select
          name="passRule"
          value={chosen}
          onChange={(event) => choose(PASS_RULE_IDS.find((id) => id === event.currentTarget.value))}
        >
          {PASS_RULE_IDS.map((id) => (
            <option key={id} value={id}>
              {passRules.names[id]}
            </option>
          ))}
        </select>
      </label>
      <p class="quiet wide" data-testid="rule-asks">
        {chosen === 'own' ? words.ruleHelp : sayChosen(chosen)}
      </p>
    </>
  );

  function sayChosen(id: Exclude<PassRuleId, 'own'>): string {
    const rule = PASS_RULES[id];
    return [
      sayRule(rule, spoken),
      ...sayRuleLimits(rule, spoken),
      sayRuleSource(rule, false, spoken),
    ].join(' ');
  }
}
