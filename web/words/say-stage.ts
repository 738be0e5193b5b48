/** The stage of the work and its time. */
import type { Stage } from '../analysis/conclusions.ts';
import { sayDuration } from './say-duration.ts';
import type { Speech } from './speech.ts';

export interface StageWords {
  readonly name: string;
  readonly time: string;
  /** How it is known, and what else it may be; empty where a mark says so. */
  readonly known: string;
}

export function sayStage(stage: Stage, nowS: number, speech: Speech): StageWords {
  const words = speech.wording.stages;
  const name = words.names[stage.name];
  const isWaiting = stage.name === 'waiting';
  return {
    name,
    time: sayDuration(isWaiting ? nowS : nowS - stage.sinceS),
    known: isWaiting ? words.recording : sayHowKnown(stage, speech),
  };
}

function sayHowKnown({ name, recognisedBy, alternatives }: Stage, { wording }: Speech): string {
  const words = wording.stages;
  // That it is pumped down is plain.
  if (recognisedBy === 'mark' || name === 'pull_down' || name === 'at_depth') return '';
  return alternatives.reduce(
    (reading, other) => words.orElse({ reading, other: words.alternatives[other] }),
    words.seen,
  );
}
