/** The whole curve under the words of the reveal. */
import { Chart } from '../chart/chart.tsx';
import type { View } from '../chart/view.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Rehearsed } from '../store/rehearsed.ts';
import { REVEAL_WORDS } from '../words/say-reveal.ts';
import { revealedMoments } from './revealed-moments.ts';
import { toldCurve } from './told-curve.ts';

interface ToldChartProps {
  readonly followed: FollowedRecording;
  readonly rehearsed: Rehearsed;
}

export function ToldChart({ followed, rehearsed }: ToldChartProps) {
  const picture = (view: View | null) =>
    toldCurve({
      recordingId: rehearsed.recordingId,
      curve: followed.curve,
      marks: followed.marks.peek(),
      sheet: followed.sheet.peek(),
      moments: revealedMoments(rehearsed),
      units: choices.peek(),
      view,
    });
  return (
    <div class="told-chart" data-testid="told-chart">
      <Chart
        picture={picture}
        changes={[followed.revision.value, choices.value]}
        description={REVEAL_WORDS.curve}
      />
    </div>
  );
}
