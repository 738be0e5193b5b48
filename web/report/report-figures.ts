/** The curves of a report: the whole recording, and each of the last holds. */
import { isSimulated, isTypedIn } from '../../protocol/recording.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Gap } from '../analysis/readings/gap-finder.ts';
import type { FigurePicture } from '../figure/figure-picture.ts';
import { figureOf } from '../figure/figure-of.ts';
import { type ChartTime, chartTime } from '../figure/time-range.ts';
import { sayHoldTitle } from '../words/say-report.ts';
import type { Hold, ReportFacts, ReportStage } from './report-model.ts';
import type { ChannelFold } from './report-readings.ts';

/** More holds than this are in the table only. */
const MOST_HOLDS_DRAWN = 3;
/** Shown before the pull-down began, as a share of what follows. */
const BEFORE_SHARE = 0.03;
const SHORTEST_S = 60;

interface Drawable {
  readonly facts: ReportFacts;
  readonly sheet: Sheet;
  readonly fold: ChannelFold;
  readonly gaps: readonly Gap[];
  readonly stages: readonly ReportStage[];
  readonly holds: readonly Hold[];
}

export function figuresFor(drawable: Drawable): FigurePicture[] {
  const { facts, sheet, fold, gaps, stages, holds } = drawable;
  const { marks, speech, recording } = facts;
  const { chart, report } = speech.wording;
  const ground = isSimulated(recording) ? chart.rehearsal : '';
  const points = isTypedIn(recording);
  const common = { points, curve: fold.curve, gaps, marks, sheet, speech, ground };
  const whole = figureOf({
    ...common,
    id: `curve-${fold.channel}-whole`,
    title: report.wholeCurve,
    conclusions: null,
    time: wholeTime(stages, fold.latestS),
  });
  const drawn = holds.slice(-MOST_HOLDS_DRAWN).map((hold) => {
    const number = holds.indexOf(hold) + 1;
    return figureOf({
      ...common,
      id: `curve-${fold.channel}-hold-${number}`,
      title: sayHoldTitle(number, holds.length, speech),
      conclusions: hold.conclusions,
      time: chartTime(hold.conclusions, sheet, marks, hold.untilS),
    });
  });
  return [whole, ...drawn];
}

/** From shortly before the first pull-down to the end. */
function wholeTime(stages: readonly ReportStage[], latestS: number): ChartTime {
  const began = stages.find(({ stage }) => stage.name !== 'waiting')?.stage.sinceS ?? 0;
  const toS = Math.max(latestS, began + SHORTEST_S);
  const fromS = Math.max(0, began - (toS - began) * BEFORE_SHARE);
  return { axis: 'log', originS: began, fromS, toS };
}
