/** One place of the day's work: its steps, and its cautions. */
import type { Recording } from '../../protocol/recording.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import type { CautionPlace } from '../words/say-caution.ts';
import { StepList } from './step-list.tsx';

interface WorkPanelProps {
  readonly place: CautionPlace;
  readonly session: Session;
  readonly followed: FollowedRecording | null;
  readonly recording: Recording | null;
}

export function WorkPanel({ place, session, followed, recording }: WorkPanelProps) {
  const { work: words, steps } = speech.value.wording;
  return (
    <Panel title={words.places[place]} testId="work-panel">
      {followed !== null && recording !== null && (
        <>
          <StepList session={session} followed={followed} recording={recording} places={[place]} />
          <div class="row">
            <button type="button" data-testid="all-steps" onClick={() => (panel.value = 'steps')}>
              {steps.all}
            </button>
          </div>
        </>
      )}
      <ul class="cautions">
        {words.cautions[place].map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <p class="quiet">{words.whoDecides}</p>
    </Panel>
  );
}
