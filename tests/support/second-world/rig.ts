/**
 * A rig of the second world: a far and a near part of the system, joined by a line, and a hose to
 * the pump. It shares no code and no model with `simulators/`.
 */
import type { Duct } from './duct.ts';
import type { PoolSetup } from './pool.ts';
import type { PumpSetup } from './pump.ts';
import type { Spectrum } from './reservoirs.ts';

export interface Surroundings {
  readonly startC: number;
  /** Steady drift, and a swing about it. */
  readonly driftKPerS: number;
  readonly swingK: number;
  readonly swingS: number;
}

export interface Rig {
  readonly farM3: number;
  readonly nearM3: number;
  readonly hoseM3: number;
  readonly line: Duct;
  readonly hose: Duct;
  readonly pump: PumpSetup;
  readonly stores: readonly Spectrum[];
  readonly pool: PoolSetup | null;
  /** Air that comes in from outside, Pa·m³/s. */
  readonly leakPaM3PerS: number;
  readonly leakNode: 'near' | 'far';
  readonly hoseLeakPaM3PerS: number;
  readonly surroundings: Surroundings;
  readonly startPa: number;
  /** Of it vapour, Pa. */
  readonly startVapourPa: number;
  readonly sensorNode: 'near' | 'far';
}

export function temperatureC(
  { startC, driftKPerS, swingK, swingS }: Surroundings,
  elapsedS: number,
) {
  return startC + driftKPerS * elapsedS + swingK * Math.sin((2 * Math.PI * elapsedS) / swingS);
}
