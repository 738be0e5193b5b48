/** What comes into each section from outside the rig: leaks, a stopped pump, nitrogen. */
import type { Controls } from './controls.ts';
import type { Exchange } from './exchanges.ts';
import { NO_GAS, perGas, type PerGas } from './gases.ts';
import { inflowPaM3PerS, openingShare } from './inflow.ts';
import { isRunning } from './pump.ts';
import { partialPressuresPa, totalPressurePa, type RigState } from './rig-state.ts';

/** Leaks and what comes back through a pump that stands, Pa·m³/s of each gas. */
export function enteringPaM3PerS(
  state: RigState,
  index: number,
  controls: Controls,
): PerGas<number> {
  const { surroundings, pump, sections } = state.setup;
  const inflows = sections[index]?.inflows ?? [];
  const stands = index === pump.section && !isRunning(pump, state.pump, controls);
  if (inflows.length === 0 && !stands) return NO_GAS;
  const insidePa = totalPressurePa(state, index);
  const leaks = inflows.map((inflow) => inflowPaM3PerS(inflow, insidePa, surroundings, controls));
  const throughPump = stands
    ? pump.stoppedInflowPaM3PerS * openingShare(insidePa, surroundings.atmospherePa)
    : 0;
  return perGas(
    (gas) => leaks.reduce((sum, leak) => sum + leak[gas], 0) + (gas === 'air' ? throughPump : 0),
  );
}

/** Nitrogen toward the regulator's pressure, while its valve is open. */
export function nitrogenExchange(
  state: RigState,
  index: number,
  { nitrogenPa }: Controls,
  molPerPaM3: number,
): Exchange | null {
  const { nitrogen } = state.setup;
  if (nitrogen?.section !== index || nitrogenPa === null) return null;
  const { water, refrigerant } = partialPressuresPa(state, index);
  return {
    gas: 'air',
    conductanceMolPerPaS: nitrogen.conductanceM3PerS * molPerPaM3,
    towardPa: nitrogenPa - water - refrigerant,
  };
}
