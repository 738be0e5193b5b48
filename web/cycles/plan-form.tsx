/** How deep, how long held, broken to what: by a rule, or one's own. */
import { useState } from 'preact/hooks';
import { PASS_RULES } from '../../protocol/pass-rules.ts';
import {
  MOST_CYCLES,
  TRIPLE_PLAN_SOURCES,
  type TriplePlanSource,
  triplePlanOf,
} from '../../protocol/triple-plan.ts';
import type { OpenSheet } from '../sheet/open-sheet.ts';
import { speech } from '../store/speech.ts';
import { gaugeUnitOf } from '../words/say-gauge-pressure.ts';
import { sayRuleSource } from '../words/say-pass-rule.ts';
import { sayUnit } from '../words/say-pressure.ts';
import { planFromTexts, textsFromPlan } from './plan-texts.ts';

const OFFERED = TRIPLE_PLAN_SOURCES.filter((from) => from === 'own' || triplePlanOf(from) !== null);

export function PlanForm({ open }: { readonly open: OpenSheet }) {
  const words = speech.value.wording.cycles;
  const [spoken] = useState(() => speech.peek());
  const [texts, setTexts] = useState(() => textsFromPlan(open.sheet.peek().triplePlan, spoken));
  const [isWrong, setWrong] = useState(false);
  const change = (changed: Partial<typeof texts>) => {
    setWrong(false);
    setTexts({ ...texts, ...changed });
  };
  /** What is changed is nobody's rule any more. */
  const changeCycle = (at: number, changed: Partial<(typeof texts.cycles)[number]>) =>
    change({
      from: 'own',
      cycles: texts.cycles.map((cycle, i) => (i === at ? { ...cycle, ...changed } : cycle)),
    });
  const choose = (from: TriplePlanSource) => {
    const plan = triplePlanOf(from);
    change(plan === null ? { from } : textsFromPlan(plan, spoken));
  };
  const enter = (event: Event) => {
    event.preventDefault();
    const plan = planFromTexts(texts, spoken);
    setWrong(plan === null);
    if (plan !== null) void open.enter({ triplePlan: plan });
  };
  return (
    <form class="form" onSubmit={enter} data-testid="plan-form">
      <h2 class="wide">{words.plan}</h2>
      <label class="wide">
        {words.from}
        <select
          name="from"
          value={texts.from}
          onChange={({ currentTarget }) => {
            const chosen = OFFERED.find((one) => one === currentTarget.value);
            if (chosen !== undefined) choose(chosen);
          }}
        >
          {OFFERED.map((from) => (
            <option key={from} value={from}>
              {nameOf(from)}
            </option>
          ))}
        </select>
        <span class="quiet">{sourceOf(texts.from)}</span>
      </label>
      {texts.cycles.map(({ depth, holdMin }, at) => {
        const number = String(at + 1);
        return (
          <div key={number} class="wide pair">
            <label>
              {words.depth({ number, unit: sayUnit(spoken) })}
              <input
                name={`depth-${number}`}
                inputMode="decimal"
                autoComplete="off"
                value={depth}
                onInput={(event) => changeCycle(at, { depth: event.currentTarget.value })}
              />
            </label>
            <label>
              {words.holdMin({ number })}
              <input
                name={`hold-${number}`}
                inputMode="decimal"
                autoComplete="off"
                value={holdMin}
                onInput={(event) => changeCycle(at, { holdMin: event.currentTarget.value })}
              />
            </label>
          </div>
        );
      })}
      <div class="wide row">
        <button
          type="button"
          disabled={texts.cycles.length >= MOST_CYCLES}
          onClick={() =>
            change({ from: 'own', cycles: [...texts.cycles, { depth: '', holdMin: '' }] })
          }
        >
          {words.add}
        </button>
        <button
          type="button"
          disabled={texts.cycles.length === 0}
          onClick={() => change({ from: 'own', cycles: texts.cycles.slice(0, -1) })}
        >
          {words.remove}
        </button>
      </div>
      <label>
        {words.breakTo({ unit: gaugeUnitOf(spoken) })}
        <input
          name="breakTo"
          inputMode="decimal"
          autoComplete="off"
          value={texts.breakTo}
          onInput={(event) => change({ breakTo: event.currentTarget.value })}
        />
      </label>
      {isWrong && (
        <p class="wrong" role="alert">
          {words.wrong}
        </p>
      )}
      <button type="submit" class="urgent">
        {words.enter}
      </button>
    </form>
  );
}

function nameOf(from: TriplePlanSource): string {
  const { cycles, passRules } = speech.value.wording;
  return from === 'own' || from === 'teaching' ? cycles.sources[from] : passRules.names[from];
}

function sourceOf(from: TriplePlanSource): string {
  if (from === 'own') return '';
  if (from === 'teaching') return speech.value.wording.cycles.teachingSource;
  return sayRuleSource(PASS_RULES[from], false, speech.value);
}
