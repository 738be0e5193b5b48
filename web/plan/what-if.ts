/** The same system on other gear, side by side: what each change would bring. Pure. */
import { paFromMicron } from '../../protocol/units.ts';
import { type ExpectedCurve, expectedPullDown, timeToS } from './expected-pull-down.ts';
import type { PlannedRig } from './planned-rig.ts';

const CHANGES = ['cores_out', 'larger_hose', 'second_hose', 'shorter_hose', 'larger_pump'] as const;
export type Change = (typeof CHANGES)[number];

interface Compared {
  readonly change: Change | 'as_entered';
  readonly rig: PlannedRig;
  readonly curve: ExpectedCurve;
  /** To 1000 micron and to the target, s; null where it does not get there. */
  readonly firstS: number | null;
  readonly targetS: number | null;
}

const INCH_M = 25.4e-3;
/** Hoses by their trade sizes, inch. */
const HOSE_BORES_M = [1 / 4, 3 / 8, 1 / 2, 3 / 4].map((inch) => inch * INCH_M);
/** A hose that is so little wider is the same size. */
const WIDER = 1.15;
const FIRST_DEPTH_PA = paFromMicron(1000);

/** The rig as it would be; null where the change is none, or nobody has such gear. */
export function changedRig(rig: PlannedRig, change: Change): PlannedRig | null {
  switch (change) {
    case 'cores_out':
      return rig.coreInPlace ? { ...rig, coreInPlace: false } : null;
    case 'larger_hose': {
      const hoseBoreM = HOSE_BORES_M.find((boreM) => boreM > WIDER * rig.hoseBoreM);
      return hoseBoreM === undefined ? null : { ...rig, hoseBoreM };
    }
    case 'second_hose':
      return { ...rig, hoseCount: rig.hoseCount + 1 };
    case 'shorter_hose':
      return { ...rig, hoseLengthM: rig.hoseLengthM / 2 };
    case 'larger_pump':
      return { ...rig, pumpDisplacementM3PerS: 2 * rig.pumpDisplacementM3PerS };
  }
}

/** As entered first, then the changes, in the order in which they stand. */
export function compareChanges(rig: PlannedRig, targetPa: number): Compared[] {
  const compared = (change: Compared['change'], changed: PlannedRig): Compared => {
    const curve = expectedPullDown(changed);
    return {
      change,
      rig: changed,
      curve,
      firstS: timeToS(curve, FIRST_DEPTH_PA),
      targetS: timeToS(curve, targetPa),
    };
  };
  return [
    compared('as_entered', rig),
    ...CHANGES.flatMap((change) => {
      const changed = changedRig(rig, change);
      return changed === null ? [] : [compared(change, changed)];
    }),
  ];
}
