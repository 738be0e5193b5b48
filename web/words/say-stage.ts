/** The stage of the work and its time. */
import type { Stage, StageName } from '../analysis/conclusions.ts';
import { sayDuration } from './say-duration.ts';

export const STAGE_NAMES: Readonly<Record<StageName, string>> = {
  waiting: 'Before the pull-down',
  pull_down: 'Pull-down',
  at_depth: 'At depth',
  rise: 'Rise',
  vented: 'Vented',
};

export interface StageWords {
  readonly name: string;
  readonly time: string;
}

export function sayStage(stage: Stage, nowS: number): StageWords {
  const lasted = sayDuration(nowS - stage.sinceS);
  const name = STAGE_NAMES[stage.name];
  switch (stage.name) {
    case 'waiting':
      return { name, time: `recording for ${sayDuration(nowS)}` };
    case 'pull_down':
    case 'at_depth':
      return { name, time: lasted };
    case 'rise':
      return {
        name,
        time: `${lasted} since valve-off${stage.recognisedBy === 'curve' ? ', seen in the curve' : ''}`,
      };
    case 'vented':
      return { name, time: `for ${lasted}` };
  }
}
