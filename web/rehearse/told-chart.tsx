/** The whole curve under the words of the reveal. */
import { useState } from 'preact/hooks';
import type { TimeRange } from '../figure/time-range.ts';
import { Chart } from '../live/chart.tsx';
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
  const [zoom, setZoom] = useState<TimeRange | null>(null);
  const picture = () =>
    toldCurve({
      readings: followed.readings,
      marks: followed.marks.peek(),
      sheet: followed.sheet.peek(),
      moments: revealedMoments(rehearsed, speech.peek()),
      speech: speech.peek(),
      zoom,
    });
  return (
    <div class="told-chart" data-testid="told-chart">
      <Chart
        picture={picture}
        changes={[followed.revision.value, speech.value, zoom]}
        zoomed={zoom !== null}
        zoomTo={setZoom}
        description={speech.value.wording.reveal.curve}
      />
    </div>
  );
}
