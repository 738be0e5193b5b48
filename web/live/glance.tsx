/** What is read from two metres away: stage, number, what is concluded and how surely, and what to do. */
import type { Recording } from '../../protocol/recording.ts';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Freshness } from '../store/freshness.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import type { SaidConclusion } from '../words/said-conclusion.ts';
import { sayStage } from '../words/say-stage.ts';
import { Beside } from './beside.tsx';
import { NextView } from './next-view.tsx';
import { ReadingView } from './reading-view.tsx';
import { SayCard } from './say-card.tsx';

interface GlanceProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
  readonly said: SaidConclusion | null;
}

export function Glance({ session, followed, recording, state, said }: GlanceProps) {
  const { wording } = speech.value;
  const conclusions = followed.conclusions.value;
  const stage =
    conclusions === null ? null : sayStage(conclusions.stage, conclusions.nowS, speech.value);
  return (
    <div class="glance">
      <h1 class="stage" data-testid="stage" tabIndex={-1}>
        {stage === null ? (
          wording.stages.beforeAny
        ) : (
          <>
            {stage.name} <span class="stage-time">{stage.time}</span>{' '}
            {stage.known !== '' && <small>{stage.known}</small>}
          </>
        )}
      </h1>
      <ReadingView followed={followed} recording={recording} state={state} />
      <Beside session={session} followed={followed} recording={recording} />
      <SayCard said={said} />
      {state.kind === 'typed_in' && may('assist') && (
        <button type="button" data-testid="type-next" onClick={() => (panel.value = 'type-in')}>
          {wording.typeIn.next}
        </button>
      )}
      <NextView followed={followed} recording={recording} state={state} />
    </div>
  );
}
