/** The whole curve under the words of the reveal. */
import { Chart } from '../chart/chart.tsx';
import type { View } from '../chart/view.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Rehearsed } from '../store/rehearsed.ts';
import { speech } from '../store/speech.ts';
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
      moments: revealedMoments(rehearsed, speech.peek()),
      speech: speech.peek(),
      view,
    });
  return (
    <div class="told-chart" data-testid="told-chart">
      <Chart
        picture={picture}
        changes={[followed.revision.value, speech.value]}
        description={speech.value.wording.reveal.curve}
      />
    </div>
  );
}
