/** The live screen: one number, one sentence, one next step, one picture. */
import type { Recording } from '../../protocol/recording.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { freshness, isCurrent } from '../store/freshness.ts';
import { rehearsedOf } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';
import { sayChart } from '../words/say-chart.ts';
import { saySensors } from '../words/say-sensor.ts';
import { sayStage } from '../words/say-stage.ts';
import { TYPE_IN_NEXT } from '../words/say-typed-in.ts';
import { panel } from '../parts/panels.ts';
import { FasterNote } from '../plan/faster-note.tsx';
import { planOf } from '../plan/plan-of.ts';
import { revealedMoments } from '../rehearse/revealed-moments.ts';
import { AskView } from './ask-view.tsx';
import { Beside } from './beside.tsx';
import { besideLines } from '../chart/beside-lines.ts';
import { Causes } from './causes.tsx';
import { Chart } from '../chart/chart.tsx';
import { chartOf } from '../chart/chart-of.ts';
import type { View } from '../chart/view.ts';
import { MarkButtons } from './mark-buttons.tsx';
import { NextView } from './next-view.tsx';
import { ReadingView } from './reading-view.tsx';
import { SayCard } from './say-card.tsx';

interface LiveScreenProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function LiveScreen({ session, followed, recording }: LiveScreenProps) {
  const source = session.source.value;
  const state = freshness(session.connection.value, recording, source);
  const conclusions = followed.conclusions.value;
  const stage = conclusions === null ? null : sayStage(conclusions.stage, conclusions.nowS);
  const names = saySensors(recording.sensors);
  const live = state.kind === 'live' || state.kind === 'paused';
  const current = isCurrent(state);
  const { curve } = planOf(followed.sheet.value);
  const moments = revealedMoments(rehearsedOf(recording));
  const picture = (view: View | null) =>
    chartOf({
      curve: followed.curve,
      name: names[followed.channel.peek()] ?? '',
      beside: (range) => besideLines(followed, names, range),
      marks: followed.marks.peek(),
      sheet: followed.sheet.peek(),
      conclusions: followed.conclusions.peek(),
      units: choices.peek(),
      recording,
      expected: curve,
      moments,
      live,
      foresees: current || (state.kind === 'ended' && conclusions?.stage.name === 'rise'),
      view,
    });
  return (
    <main class="live">
      <aside>
        <h1 class="stage" data-testid="stage">
          {stage === null ? (
            <>Before the first conclusion</>
          ) : (
            <>
              {stage.name} <small>{stage.time}</small>
            </>
          )}
        </h1>
        {recording.sensors.length > 1 && (
          <label class="sensor-choice">
            Sensor{' '}
            <select
              value={followed.channel.value}
              onChange={(event) => followed.watch(Number(event.currentTarget.value))}
            >
              {recording.sensors.map((sensor, channel) => (
                <option key={sensor.id} value={channel}>
                  {names[channel]}
                </option>
              ))}
            </select>
          </label>
        )}
        <ReadingView followed={followed} recording={recording} state={state} />
        <Beside session={session} followed={followed} recording={recording} />
        <SayCard
          followed={followed}
          recording={recording}
          state={state}
          problem={source?.problem ?? null}
        />
        {state.kind === 'typed_in' && (
          <button type="button" data-testid="type-next" onClick={() => (panel.value = 'type-in')}>
            {TYPE_IN_NEXT}
          </button>
        )}
        <NextView followed={followed} recording={recording} state={state} />
        {current && curve !== null && <FasterNote followed={followed} curve={curve} />}
        {current && <Causes conclusions={conclusions} />}
        <AskView followed={followed} recording={recording} />
      </aside>
      <Chart
        picture={picture}
        changes={[
          followed.revision.value,
          conclusions,
          choices.value,
          names.join('\n'),
          state.kind,
          curve,
          moments.length,
        ]}
        description={sayChart(stage?.name ?? '', names)}
      >
        {recording.open && <MarkButtons followed={followed} recording={recording} />}
      </Chart>
    </main>
  );
}
