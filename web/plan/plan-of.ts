/** The plan of a sheet's rig with its curves, reckoned anew only when one of its entries changes. */
import { type ExpectedCurve, expectedPullDown } from './expected-pull-down.ts';
import { type Plan, planRig, type RigFields } from './planned-rig.ts';

interface PlanWithCurve {
  readonly plan: Plan;
  /** At the end of the system that comes down last; null while something is missing. */
  readonly curve: ExpectedCurve | null;
  /** At the hose: the same where no long line lies between. */
  readonly nearCurve: ExpectedCurve | null;
}

/** Screen and panel ask for the same rig with each rendering, and a curve costs some 50 ms. */
let latest: { readonly key: string; readonly answer: PlanWithCurve } | null = null;

export function planOf(fields: RigFields): PlanWithCurve {
  const { volumeM3, pumpDisplacementM3PerS, pumpUltimatePa } = fields;
  const { hoseBoreM, hoseLengthM, hoseCount, core } = fields;
  const { tubes, vessels, sections, joins } = fields;
  const pump = [volumeM3, pumpDisplacementM3PerS, pumpUltimatePa];
  const system = [tubes, vessels, sections, joins];
  const key = JSON.stringify([...pump, hoseBoreM, hoseLengthM, hoseCount, core, ...system]);
  if (latest?.key !== key) latest = { key, answer: answerTo(planRig(fields)) };
  return latest.answer;
}

function answerTo(plan: Plan): PlanWithCurve {
  if (plan.kind === 'missing') return { plan, curve: null, nearCurve: null };
  const curve = expectedPullDown(plan.rig);
  const nearCurve = plan.rig.far.length === 0 ? curve : expectedPullDown(plan.rig, 'near');
  return { plan, curve, nearCurve };
}
