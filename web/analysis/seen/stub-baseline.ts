/**
 * What flows in at the sensor's own joints, by a hold of the sensor alone, and what that leaves of a larger part's
 * inflow: Q = V·L of the one less V·L of the other. Only with both volumes known: without them a rise of the stub says
 * how fast it rises, and not how much comes in.
 */
import type { Estimate } from '../conclusions.ts';

/** Of a hold: how fast it rises, and how much comes in. */
export interface Inflow {
  /** Pa/s. */
  readonly leakPaPerS: Estimate | null;
  /** Pa·m³/s; null where the volume is not known. */
  readonly leakRatePaM3PerS: Estimate | null;
}

/**
 * `excluded`: the leak is not there. `explains`: all of the inflow may come from there. `part`: some of it does.
 * `suspect`: it rises fast, and only its volume would tell how much that is.
 */
export type StubFinding = 'not_tested' | 'excluded' | 'explains' | 'part' | 'suspect' | 'undecided';

/** Less than this part of the whole is none that explains anything. A setting of ours. */
const NO_PART = 0.2;
/** Surely this part of the whole, and possibly all of it, is all that need be asked. A setting of ours. */
const MOST = 0.7;
/** So many times as fast as the whole: then next to no volume stands behind it. A setting of ours. */
const MUCH_FASTER = 3;

export function stubFinding(stub: Inflow | null, whole: Inflow | null): StubFinding {
  if (stub?.leakPaPerS === null || stub === null) return 'not_tested';
  if (whole?.leakPaPerS === null || whole === null) return 'undecided';
  const [own, all] = [stub.leakRatePaM3PerS, whole.leakRatePaM3PerS];
  if (own !== null && all !== null) {
    if (own.high <= NO_PART * all.low) return 'excluded';
    if (own.high >= all.low && own.low >= MOST * all.estimate) return 'explains';
    return own.low > NO_PART * all.high ? 'part' : 'undecided';
  }
  // It is the smaller volume by far: what rises no faster than the whole has next to nothing coming in.
  if (stub.leakPaPerS.high <= whole.leakPaPerS.low) return 'excluded';
  return stub.leakPaPerS.low > MUCH_FASTER * whole.leakPaPerS.high ? 'suspect' : 'undecided';
}

/** Never below nothing, and null where either is not known. */
export function lessStub(whole: Inflow, stub: Inflow | null): Estimate | null {
  const [all, own] = [whole.leakRatePaM3PerS, stub?.leakRatePaM3PerS ?? null];
  if (all === null || own === null) return null;
  const estimate = all.estimate - own.estimate;
  const low = estimate - Math.hypot(all.estimate - all.low, own.high - own.estimate);
  const high = estimate + Math.hypot(all.high - all.estimate, own.estimate - own.low);
  return { estimate: Math.max(estimate, 0), low: Math.max(low, 0), high: Math.max(high, 0) };
}
