/** What to do next, with the button that marks it where it is a thing to mark. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { type Freshness, isCurrent } from '../store/freshness.ts';
import { speech } from '../store/speech.ts';
import { nextStep } from '../steps/next-step.ts';
import { type NextStep, sayNextStep } from '../words/say-next-step.ts';
import { MarkButton } from './mark-buttons.tsx';

interface NextViewProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
}

export function NextView({ followed, recording, state }: NextViewProps) {
  const conclusions = followed.conclusions.value;
  const current = isCurrent(state);
  // What to do next is a conclusion as well: not from readings that are no longer true.
  if (conclusions === null || !(current || state.kind === 'ended')) return null;
  // Of a recording that is over a verdict still says what to do; nobody knows whether it is still pumped.
  if (!current && conclusions.rise === null) return null;
  const step = nextStep(conclusions, followed.sheet.value, followed.marks.value);
  const words = sayNextStep(step, speech.value);
  const kind = markOf(step);
  return (
    <section class="next" data-testid="next" data-step={step.kind}>
      <i class="next-mark">{speech.value.wording.next.name}</i>
      <b data-testid="todo">{words.todo}</b>
      <span data-testid="how">{words.how}</span>
      {kind !== null && current && (
        <MarkButton kind={kind} followed={followed} recording={recording} urgent />
      )}
    </section>
  );
}

function markOf(step: NextStep): MarkKind | null {
  if (step.kind === 'valve_off') return 'isolated';
  return step.kind === 'close_ballast' ? 'ballast_closed' : null;
}
