/** What a radio says of itself and of its sensors, as a screen shows it. */
import type { ProblemCode } from '../../../protocol/problems.ts';
import type { SensorState, SourcePhase } from '../../../protocol/source-state.ts';
import type { SessionPhase } from './session-phases.ts';

export interface SensorFacts {
  readonly name: string;
  readonly phase: SessionPhase;
  /** When it came into this phase, on the wall's clock, ms. */
  readonly enteredMs: number;
  readonly problem: ProblemCode | null;
  readonly batteryPercent: number | null;
  readonly signalDbm: number | null;
  /** Readings that never came and can be asked for. */
  readonly missed: number;
  /** It has been asked for some of them. */
  readonly fetching: boolean;
}

export interface RadioFacts {
  /** `starting`, `on`, or why there is no radio. */
  readonly radio: 'starting' | 'on' | ProblemCode;
  /** It was started again and no sensor has been heard of since. */
  readonly restarted: boolean;
  /** In the order in which they came into their present phase. */
  readonly sensors: ReadonlyMap<string, SensorFacts>;
}

type Condition = Omit<SensorState, 'sensorId' | 'name' | 'sinceMs'>;
type Shown = Condition & {
  readonly name: string;
  readonly sensors: readonly (Condition & Pick<SensorState, 'sensorId' | 'name'>)[];
};

const BEST_FIRST: readonly SessionPhase[] = ['live', 'stale', 'connecting', 'found', 'lost'];

/** Receivers of the trade lose a sensor somewhere below −90 dBm. From memory. */
const WEAK_DBM = -88;
/** Who was lost for so long has left or sleeps; it is looked for all the same. A setting of ours. */
export const GONE_AFTER_MS = 10 * 60_000;

/**
 * Each sensor's state, and that of the one that is best off; of lost ones, the one lost last.
 * @param nowMs on the wall's clock
 */
export function shownState({ radio, restarted, sensors }: RadioFacts, nowMs: number): Shown {
  const missing = radio === 'starting' || radio === 'on' ? null : radio;
  const each = [...sensors].map(([sensorId, facts]) => ({
    sensorId,
    name: facts.name,
    ...conditionOf(facts, missing, nowMs),
  }));
  // What nobody has chosen is offered, and speaks for nobody.
  const own = [...sensors.values()].filter(({ problem }) => problem !== 'sensor_not_chosen');
  const best = own.reduce<SensorFacts | null>(better, null);
  if (best !== null) {
    return { name: best.name, ...conditionOf(best, missing, nowMs), sensors: each };
  }
  const about = { name: '', batteryPercent: null, signalDbm: null, sensors: each };
  if (missing !== null) return { ...about, phase: 'unavailable', problem: missing };
  const problem = restarted ? 'radio_restarted' : null;
  return { ...about, phase: radio === 'on' ? 'searching' : 'starting', problem };
}

/** @param missing why there is no radio: that comes before anything that a sensor said */
function conditionOf(facts: SensorFacts, missing: ProblemCode | null, nowMs: number): Condition {
  const { phase, problem, batteryPercent, signalDbm, missed } = facts;
  const condition = { batteryPercent, ...(missed > 0 ? { missedReadings: missed } : {}) };
  if (missing !== null) {
    return { ...condition, phase: 'unavailable', problem: missing, signalDbm: null };
  }
  const isHeard = phase === 'live' || phase === 'stale';
  return {
    ...condition,
    phase: shownPhase(facts, nowMs),
    problem,
    signalDbm: isHeard ? signalDbm : null,
  };
}

function shownPhase(facts: SensorFacts, nowMs: number): SourcePhase {
  const { phase, enteredMs, signalDbm, missed, fetching } = facts;
  if (phase === 'lost') return nowMs - enteredMs >= GONE_AFTER_MS ? 'gone' : 'lost';
  if (phase !== 'live') return phase;
  if (fetching && missed > 0) return 'backfilling';
  return signalDbm !== null && signalDbm <= WEAK_DBM ? 'weak' : 'live';
}

function better(best: SensorFacts | null, other: SensorFacts): SensorFacts {
  if (best === null) return other;
  const lead = BEST_FIRST.indexOf(best.phase) - BEST_FIRST.indexOf(other.phase);
  return lead > 0 || (lead === 0 && other.phase === 'lost') ? other : best;
}
