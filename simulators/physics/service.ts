/** What a technician does to the pump that no valve does. */
import type { RigState } from './rig-state.ts';

/** Fresh oil: clean and dry. */
export function withFreshOil(state: RigState): RigState {
  return { ...state, pump: { ...state.pump, oilWaterMol: 0, foulPa: 0 } };
}

export function withFreshBattery(state: RigState): RigState {
  return { ...state, pump: { ...state.pump, ranS: 0 } };
}
