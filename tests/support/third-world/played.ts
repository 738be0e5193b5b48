/** A rig pumped and held by turns: what the gas at the gauge did. */
import type { Rig } from './rig.ts';
import { Vessel } from './vessel.ts';

interface Phase {
  readonly pumping: boolean;
  /** Whether it is over, so long after its beginning. */
  readonly over: (inPhaseS: number, gaugePa: number) => boolean;
}

export interface Played {
  /** When each phase ended. */
  readonly endsS: readonly number[];
  readonly gasPaAt: (elapsedS: number) => number;
}

/** Before the pump is switched on. */
export const PUMP_ON_S = 8;
const SHORTEST_STEP_S = 0.2;
const LONGEST_STEP_S = 1;

export function played(rig: Rig, phases: readonly Phase[]): Played {
  const vessel = new Vessel(rig);
  let nowS = PUMP_ON_S;
  const times = [0, nowS];
  const pressures = [vessel.gaugePa(0), vessel.gaugePa(nowS)];
  const endsS: number[] = [];
  for (const { pumping, over } of phases) {
    const beganS = nowS;
    for (;;) {
      const inPhaseS = nowS - beganS;
      if (over(inPhaseS, vessel.gaugePa(nowS))) break;
      const stepS = Math.min(LONGEST_STEP_S, Math.max(SHORTEST_STEP_S, 0.01 * inPhaseS));
      nowS += stepS;
      vessel.step(nowS, stepS, nowS - PUMP_ON_S, pumping ? nowS - PUMP_ON_S : null);
      times.push(nowS);
      pressures.push(vessel.gaugePa(nowS));
    }
    endsS.push(nowS);
  }
  return { endsS, gasPaAt: (elapsedS) => interpolated(times, pressures, elapsedS) };
}

function interpolated(times: readonly number[], values: readonly number[], at: number): number {
  let low = 0;
  let high = times.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? 0) <= at) low = middle;
    else high = middle;
  }
  const [fromS = 0, toS = 0] = [times[low], times[high]];
  const [from = 0, to = 0] = [values[low], values[high]];
  const share = toS > fromS ? Math.min(1, Math.max(0, (at - fromS) / (toS - fromS))) : 0;
  return from + share * (to - from);
}
