/** The whole curve under the words of the reveal. */
import { useState } from 'preact/hooks';
import type { TimeRange } from '../figure/time-range.ts';
import { Chart } from '../chart/chart.tsx';
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
  const [zoom, setZoom] = useState<TimeRange | null>(null);
  const picture = () =>
    toldCurve({
      readings: followed.readings,
      marks: followed.marks.peek(),
      sheet: followed.sheet.peek(),
      moments: revealedMoments(rehearsed),
      units: choices.peek(),
      zoom,
    });
  return (
    <div class="told-chart" data-testid="told-chart">
      <Chart
        picture={picture}
        changes={[followed.revision.value, choices.value, zoom]}
        zoomed={zoom !== null}
        zoomTo={setZoom}
        description={REVEAL_WORDS.curve}
      />
    </div>
  );
}
