/** The plan of a sheet's rig with its curve, reckoned anew only when one of its entries changes. */
import { useMemo } from 'preact/hooks';
import { type ExpectedCurve, expectedPullDown } from './expected-pull-down.ts';
import { type Plan, planRig, type RigFields } from './planned-rig.ts';

interface PlanWithCurve {
  readonly plan: Plan;
  /** Null while something is missing. */
  readonly curve: ExpectedCurve | null;
}

export function usePlan(fields: RigFields): PlanWithCurve {
  return useMemo(() => {
    const plan = planRig(fields);
    return { plan, curve: plan.kind === 'rig' ? expectedPullDown(plan.rig) : null };
  }, [
    fields.volumeM3,
    fields.pumpDisplacementM3PerS,
    fields.pumpUltimatePa,
    fields.hoseBoreM,
    fields.hoseLengthM,
    fields.hoseCount,
    fields.core,
  ]);
}
