/** Rigs for tests of what is expected of them; a test says what differs. */
import type { PlannedRig } from '../../web/plan/planned-rig.ts';

/** A small split system on a 3/8-inch hose, cores out, with a pump that has no floor. */
export function rigWith(change: Partial<PlannedRig> = {}): PlannedRig {
  return {
    volumeM3: 4e-3,
    pumpDisplacementM3PerS: 2e-3,
    pumpUltimatePa: 0,
    hoseBoreM: 9.5e-3,
    hoseLengthM: 1.2,
    hoseCount: 1,
    coreInPlace: false,
    far: [],
    ...change,
  };
}
