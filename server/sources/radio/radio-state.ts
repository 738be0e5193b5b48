/** What a radio says of itself and of its sensors, as a screen shows it. */
import type { ProblemCode } from '../../../protocol/problems.ts';
import type { SensorState } from '../../../protocol/source-state.ts';
import type { SessionReport } from './messages.ts';

export interface SensorFacts {
  readonly name: string;
  readonly phase: SessionReport['phase'];
  readonly problem: ProblemCode | null;
  readonly batteryPercent: number | null;
  readonly signalDbm: number | null;
}

export interface RadioFacts {
  /** `starting`, `on`, or why there is no radio. */
  readonly radio: 'starting' | 'on' | ProblemCode;
  /** It was started again and no sensor has been heard of since. */
  readonly restarted: boolean;
  /** In the order in which they came into their present phase. */
  readonly sensors: ReadonlyMap<string, SensorFacts>;
}

type Condition = Omit<SensorState, 'sensorId' | 'sinceMs'>;
type Shown = Condition & {
  readonly name: string;
  readonly sensors: readonly (Condition & Pick<SensorState, 'sensorId'>)[];
};

const BEST_FIRST: readonly SessionReport['phase'][] = ['live', 'stale', 'connecting', 'lost'];

/** Each sensor's state, and that of the one that is best off; of lost ones, the one lost last. */
export function shownState({ radio, restarted, sensors }: RadioFacts): Shown {
  const missing = radio === 'starting' || radio === 'on' ? null : radio;
  const each = [...sensors].map(([sensorId, facts]) => ({
    sensorId,
    ...conditionOf(facts, missing),
  }));
  const best = [...sensors.values()].reduce<SensorFacts | null>(better, null);
  if (best !== null) return { name: best.name, ...conditionOf(best, missing), sensors: each };
  const about = { name: '', batteryPercent: null, signalDbm: null, sensors: each };
  if (missing !== null) return { ...about, phase: 'unavailable', problem: missing };
  const problem = restarted ? 'radio_restarted' : null;
  return { ...about, phase: radio === 'on' ? 'searching' : 'starting', problem };
}

/** @param missing why there is no radio: that comes before anything that a sensor said */
function conditionOf(
  { phase, problem, batteryPercent, signalDbm }: SensorFacts,
  missing: ProblemCode | null,
): Condition {
  if (missing !== null) {
    return { phase: 'unavailable', problem: missing, batteryPercent, signalDbm: null };
  }
  const isHeard = phase === 'live' || phase === 'stale';
  return { phase, problem, batteryPercent, signalDbm: isHeard ? signalDbm : null };
}

function better(best: SensorFacts | null, other: SensorFacts): SensorFacts {
  if (best === null) return other;
  const lead = BEST_FIRST.indexOf(best.phase) - BEST_FIRST.indexOf(other.phase);
  return lead > 0 || (lead === 0 && other.phase === 'lost') ? other : best;
}
