/** Several evacuations with nitrogen between them, as they are planned: how deep, how long held, broken to what. */
import { z } from 'zod';
import { PASS_RULE_IDS, PASS_RULES, type PassRuleId } from './pass-rules.ts';
import { paFromMicron, STANDARD_ATMOSPHERE_PA } from './units.ts';

export const MOST_CYCLES = 6;

/** `teaching`: three depths as courses have them; the others are those of the pass rules that say any. */
export const TRIPLE_PLAN_SOURCES = ['own', 'teaching', ...PASS_RULE_IDS] as const;
export type TriplePlanSource = (typeof TRIPLE_PLAN_SOURCES)[number];

const cycleSchema = z.strictObject({
  targetPa: z.number().gt(0).max(200_000),
  /** To be held so long, where that is asked for. */
  holdS: z.number().min(60).max(86_400).nullable(),
});

export const triplePlanSchema = z.strictObject({
  /** Where its figures come from. */
  from: z.enum(TRIPLE_PLAN_SOURCES),
  /** None: nothing is planned. */
  cycles: z.array(cycleSchema).max(MOST_CYCLES),
  /** What the vacuum is broken to, absolute. */
  breakToPa: z.number().min(1000).max(1e6),
});
export type TriplePlan = z.infer<typeof triplePlanSchema>;

export const NO_TRIPLE_PLAN: TriplePlan = {
  from: 'own',
  cycles: [],
  breakToPa: STANDARD_ATMOSPHERE_PA,
};

/** 4000 micron for 15 min, 1500 for 20 min, then 500: seen in texts of courses that name no source. */
const TEACHING: TriplePlan = {
  from: 'teaching',
  cycles: [
    { targetPa: paFromMicron(4000), holdS: 900 },
    { targetPa: paFromMicron(1500), holdS: 1200 },
    { targetPa: paFromMicron(500), holdS: null },
  ],
  breakToPa: STANDARD_ATMOSPHERE_PA,
};

/** Null where the rule asks for one evacuation only. */
export function triplePlanOf(from: TriplePlanSource): TriplePlan | null {
  if (from === 'own') return null;
  if (from === 'teaching') return TEACHING;
  return planOfRule(from);
}

function planOfRule(id: Exclude<PassRuleId, 'own'>): TriplePlan | null {
  const { beforePa, finalPa, holdS } = PASS_RULES[id];
  if (beforePa.length === 0 || finalPa === null) return null;
  const before = beforePa.map((targetPa) => ({ targetPa, holdS: null }));
  return {
    from: id,
    cycles: [...before, { targetPa: finalPa, holdS }],
    breakToPa: STANDARD_ATMOSPHERE_PA,
  };
}
