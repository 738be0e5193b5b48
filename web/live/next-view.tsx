/** What to do next, with the button that marks it where it is a thing to mark. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { ClosingStep } from '../../protocol/ticked-steps.ts';
import { MARK_OF_STEP } from '../analysis/closing/steps-of.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { type Freshness, isCurrent } from '../store/freshness.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { nextOf } from '../steps/next-of.ts';
import { TICKABLE, tickStep } from '../steps/tick-step.ts';
import { type NextStep, sayNextStep } from '../words/say-next-step.ts';
import { MarkButton } from './mark-buttons.tsx';

interface NextViewProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
}

export function NextView({ followed, recording, state }: NextViewProps) {
  const current = isCurrent(state);
  const step = nextOf(followed, state);
  if (step === null) return null;
  const words = sayNextStep(step, speech.value);
  const kind = markOf(step);
  const tick = tickOf(step, recording);
  return (
    <section class="next" data-testid="next" data-step={step.kind}>
      <i class="next-mark">{speech.value.wording.next.name}</i>
      <b data-testid="todo">{words.todo}</b>
      <span data-testid="how">{words.how}</span>
      {tick !== null && may('assist') && (
        <button
          type="button"
          class="urgent"
          data-testid={`prompt-${tick}`}
          onClick={() => tickStep(tick, 'done', followed, recording)}
        >
          {speech.value.wording.steps.done}
        </button>
      )}
      {kind !== null && (current || isClosing(step)) && recording.open && (
        <MarkButton kind={kind} followed={followed} recording={recording} urgent />
      )}
    </section>
  );
}

function markOf(step: NextStep): MarkKind | null {
  if (step.kind === 'valve_off') return 'isolated';
  if (step.kind === 'close_up' && step.step !== null) return MARK_OF_STEP[step.step] ?? null;
  return step.kind === 'close_ballast' ? 'ballast_closed' : null;
}

/** What no mark says. */
function tickOf(step: NextStep, { open }: Recording): ClosingStep | null {
  if (step.kind !== 'close_up' || step.step === null) return null;
  // A recording that is over takes no marks: what was done after it is said so.
  return TICKABLE.includes(step.step) || !open ? step.step : null;
}

function isClosing({ kind }: NextStep): boolean {
  return kind === 'close_up';
}
