/** The plan of a sheet's rig with its curve, reckoned anew only when one of its entries changes. */
import { type ExpectedCurve, expectedPullDown } from './expected-pull-down.ts';
import { type Plan, planRig, type RigFields } from './planned-rig.ts';

interface PlanWithCurve {
  readonly plan: Plan;
  /** Null while something is missing. */
  readonly curve: ExpectedCurve | null;
}

/** Screen and panel ask for the same rig with each rendering, and the curve costs some 50 ms. */
let latest: { readonly key: string; readonly answer: PlanWithCurve } | null = null;

export function planOf(fields: RigFields): PlanWithCurve {
  const { volumeM3, pumpDisplacementM3PerS, pumpUltimatePa } = fields;
  const { hoseBoreM, hoseLengthM, hoseCount, core } = fields;
  const pump = [volumeM3, pumpDisplacementM3PerS, pumpUltimatePa];
  const key = JSON.stringify([...pump, hoseBoreM, hoseLengthM, hoseCount, core]);
  if (latest?.key !== key) {
    const plan = planRig(fields);
    const curve = plan.kind === 'rig' ? expectedPullDown(plan.rig) : null;
    latest = { key, answer: { plan, curve } };
  }
  return latest.answer;
}
