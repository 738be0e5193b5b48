/** All steps of the job: what is done, what is now, what is to come. */
import { useEffect, useRef } from 'preact/hooks';
import type { Recording } from '../../protocol/recording.ts';
import { Panel } from '../parts/panel.tsx';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { StepList } from './step-list.tsx';
import { PLACES } from './step-places.ts';

interface StepsPanelProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function StepsPanel({ session, followed, recording }: StepsPanelProps) {
  const { steps: words, work } = speech.value.wording;
  const inside = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // Once the panel has opened, which puts the focus on its first button.
    inside.current?.querySelector('.step-now')?.scrollIntoView({ block: 'center' });
  }, []);
  return (
    <Panel title={words.title} testId="steps-panel">
      <div ref={inside} class="steps-all">
        <StepList session={session} followed={followed} recording={recording} places={PLACES} />
      </div>
      <p class="quiet">{words.help}</p>
      <p class="quiet">{work.whoDecides}</p>
    </Panel>
  );
}
