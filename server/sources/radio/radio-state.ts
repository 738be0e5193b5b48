/** What a radio says of itself and of its sensors, as the one state that a screen shows. */
import type { ProblemCode } from '../../../protocol/problems.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
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

type Shown = Pick<SourceState, 'name' | 'phase' | 'problem' | 'batteryPercent' | 'signalDbm'>;

const BEST_FIRST: readonly SessionReport['phase'][] = ['live', 'stale', 'connecting', 'lost'];

/** With several sensors, the state of the one that is best off; of lost ones, the one lost last. */
export function shownState({ radio, restarted, sensors }: RadioFacts): Shown {
  const best = [...sensors.values()].reduce<SensorFacts | null>(better, null);
  const isHeard = best?.phase === 'live' || best?.phase === 'stale';
  const about = {
    name: best?.name ?? '',
    batteryPercent: best?.batteryPercent ?? null,
    signalDbm: isHeard ? best.signalDbm : null,
  };
  if (radio !== 'starting' && radio !== 'on') {
    return { ...about, signalDbm: null, phase: 'unavailable', problem: radio };
  }
  if (best !== null) return { ...about, phase: best.phase, problem: best.problem };
  const problem = restarted ? 'radio_restarted' : null;
  return { ...about, phase: radio === 'on' ? 'searching' : 'starting', problem };
}

function better(best: SensorFacts | null, other: SensorFacts): SensorFacts {
  if (best === null) return other;
  const lead = BEST_FIRST.indexOf(best.phase) - BEST_FIRST.indexOf(other.phase);
  return lead > 0 || (lead === 0 && other.phase === 'lost') ? other : best;
}
