/** The stage of the work and its time. */
import type { Stage, StageName } from '../analysis/conclusions.ts';
import { sayDuration } from './say-duration.ts';

export const STAGE_NAMES: Readonly<Record<StageName, string>> = {
  waiting: 'Before the pull-down',
  pull_down: 'Pull-down',
  at_depth: 'At depth',
  rise: 'Rise',
  pump_stopped: 'Pump stopped',
  nitrogen_break: 'Nitrogen break',
  vented: 'Vented',
};

/** As what else the curve may be read. */
const ALTERNATIVES: Readonly<Record<StageName, string>> = {
  waiting: 'nothing pumped yet',
  pull_down: 'it is still pumped',
  at_depth: 'it is still pumped',
  rise: 'it was valved off',
  pump_stopped: 'the pump stands still',
  nitrogen_break: 'nitrogen was let in',
  vented: 'it was opened',
};

export const BEFORE_ANY = 'Before the first conclusion';

export interface StageWords {
  readonly name: string;
  readonly time: string;
  /** How it is known, and what else it may be; empty where a mark says so. */
  readonly known: string;
}

export function sayStage(stage: Stage, nowS: number): StageWords {
  const name = STAGE_NAMES[stage.name];
  const isWaiting = stage.name === 'waiting';
  return {
    name,
    time: sayDuration(isWaiting ? nowS : nowS - stage.sinceS),
    known: isWaiting ? 'recording' : sayHowKnown(stage),
  };
}

function sayHowKnown({ name, recognisedBy, alternatives }: Stage): string {
  // That it is pumped down is plain.
  if (recognisedBy === 'mark' || name === 'pull_down' || name === 'at_depth') return '';
  const others = alternatives.map((other) => ALTERNATIVES[other]);
  return ['seen in the curve', ...others].join(', or ');
}
