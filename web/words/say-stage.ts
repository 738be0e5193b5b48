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
      return { name, time: `${lasted} since valve-off${sayHowKnown(stage)}` };
    case 'pump_stopped':
    case 'nitrogen_break':
    case 'vented':
      return { name, time: `for ${lasted}${sayHowKnown(stage)}` };
  }
}

/** Empty where a mark says so. */
function sayHowKnown({ recognisedBy, alternatives }: Stage): string {
  if (recognisedBy === 'mark') return '';
  const others = alternatives.map((name) => ALTERNATIVES[name]);
  return [', seen in the curve', ...others].join(', or ');
}
