/** The live screen: one number, one sentence, one next step, one picture. */
import type { Recording } from '../../protocol/recording.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { freshness, isCurrent } from '../store/freshness.ts';
import { rehearsedOf } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayChart } from '../words/say-chart.ts';
import { saySensors } from '../words/say-sensor.ts';
import { sayStage } from '../words/say-stage.ts';
import { planOf } from '../plan/plan-of.ts';
import { revealedMoments } from '../rehearse/revealed-moments.ts';
import { besideLines } from '../chart/beside-lines.ts';
import { Chart } from '../chart/chart.tsx';
import { chartOf } from '../chart/chart-of.ts';
import type { BehindPiece } from '../chart/chart-picture.ts';
import { laidBehind } from '../history/laid-behind.ts';
import { LaidBehindStrip } from '../history/laid-behind-strip.tsx';
import { placedBehind } from '../history/place-behind.ts';
import type { View } from '../chart/view.ts';
import { Glance } from './glance.tsx';
import { MarkButtons } from './mark-buttons.tsx';
import { saidNow } from './said-now.ts';
import { SmallPrint } from './small-print.tsx';

interface LiveScreenProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function LiveScreen({ session, followed, recording }: LiveScreenProps) {
  const source = session.source.value;
  const state = freshness(session.connection.value, recording, source, session.record.value);
  const conclusions = followed.conclusions.value;
  const stage =
    conclusions === null ? null : sayStage(conclusions.stage, conclusions.nowS, speech.value);
  const names = saySensors(recording.sensors, speech.value);
  const live = state.kind === 'live' || state.kind === 'paused';
  const current = isCurrent(state);
  const { curve, nearCurve } = planOf(followed.sheet.value);
  const said = saidNow(followed, recording, state, source?.problem ?? null);
  const behind = behindOf(followed);
  const moments = revealedMoments(rehearsedOf(recording), speech.value);
  const picture = (view: View | null) =>
    chartOf({
      curve: followed.curve,
      name: names[followed.channel.peek()] ?? '',
      beside: (range) => besideLines(followed, names, range),
      marks: followed.marks.peek(),
      sheet: followed.sheet.peek(),
      conclusions: followed.conclusions.peek(),
      speech: speech.peek(),
      recording,
      expected: curve,
      behind: behind ?? [],
      moments,
      live,
      foresees: current || (state.kind === 'ended' && conclusions?.stage.name === 'rise'),
      view,
    });
  return (
    <main class="live">
      <Glance
        session={session}
        followed={followed}
        recording={recording}
        state={state}
        said={said}
      />
      <div class="near">
        <LaidBehindStrip isPlaced={behind !== null} />
        <Chart
          picture={picture}
          changes={[
            followed.revision.value,
            conclusions,
            speech.value,
            names.join('\n'),
            state.kind,
            curve,
            moments.length,
            behind,
          ]}
          description={sayChart(stage?.name ?? '', names, speech.value)}
        >
          {recording.open && <MarkButtons followed={followed} recording={recording} />}
        </Chart>
        <SmallPrint
          followed={followed}
          recording={recording}
          state={state}
          said={said}
          expected={curve}
          soonest={nearCurve}
        />
      </div>
    </main>
  );
}

/** Of the sensor of the same number; of a job that had fewer, the first. Null where it has no place here. */
function behindOf(followed: FollowedRecording): readonly BehindPiece[] | null {
  const laid = laidBehind.value;
  if (laid === null) return [];
  const channel = followed.channel.value;
  const curve = laid.curves.find((one) => one.channel === channel) ?? laid.curves[0];
  const conclusions = followed.conclusions.value;
  const own = {
    pullDownS: conclusions?.pullDownS ?? null,
    isolatedS: conclusions?.holds.at(-1)?.fromS ?? null,
  };
  return curve === undefined ? null : placedBehind(curve, own, laid.from);
}
