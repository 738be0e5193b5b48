/** How much gas a leak lets in, and which. */
import type { Controls } from './controls.ts';
import type { PerGas } from './gases.ts';
import type { InflowSetup } from './section-setup.ts';
import type { Surroundings } from './surroundings.ts';

/** Below this ratio of inner to outer pressure the flow is choked and no longer depends on it. */
const CRITICAL_RATIO = 0.5;

/**
 * Flow through a small opening over that into a vacuum: 1 while the pressure inside is below half of
 * that outside, above that falling to nothing along the ellipse of ISO 6358-1,
 * q/q* = √(1 − ((r − b)/(1 − b))²), with b = 0.5 (from memory).
 */
export function openingShare(insidePa: number, outsidePa: number): number {
  const ratio = insidePa / outsidePa;
  if (!(ratio < 1)) return 0;
  if (ratio <= CRITICAL_RATIO) return 1;
  return Math.sqrt(1 - ((ratio - CRITICAL_RATIO) / (1 - CRITICAL_RATIO)) ** 2);
}

/**
 * Gas that comes in now, Pa·m³/s of each. Nothing flows outward: under a positive pressure of
 * nitrogen a leak loses some of it, which no vacuum sensor is there to see.
 */
export function inflowPaM3PerS(
  inflow: InflowSetup,
  insidePa: number,
  { atmospherePa, humidityPa }: Surroundings,
  { tightened }: Pick<Controls, 'tightened'>,
): PerGas<number> {
  const outsidePa = inflow.from === 'outside' ? atmospherePa : inflow.chargePa;
  const share =
    inflow.law === 'opening'
      ? openingShare(insidePa, outsidePa)
      : Math.max(0, 1 - insidePa / outsidePa);
  const ended = tightened && inflow.endsWhenTightened;
  const flow = ended ? 0 : inflow.intoVacuumPaM3PerS * share;
  if (inflow.from === 'charge') return { air: 0, water: 0, refrigerant: flow };
  const humid = humidityPa / atmospherePa;
  return { air: flow * (1 - humid), water: flow * humid, refrigerant: 0 };
}
