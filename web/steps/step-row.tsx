/** One step: its state and how that is known, what to do, its caution, and the button that says it is done. */
import { ArrowRight, Check, Circle, CircleDashed, Minus } from 'lucide';
import type { IconNode } from 'lucide';
import type { Recording } from '../../protocol/recording.ts';
import { CLOSING_STEPS } from '../../protocol/ticked-steps.ts';
import { type JobStep, MARK_OF_STEP } from '../analysis/closing/steps-of.ts';
import { MarkButton } from '../live/mark-buttons.tsx';
import { Icon } from '../parts/icon.tsx';
import { momentWords } from '../parts/moment-words.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayStepCaution, sayStepState } from '../words/say-steps.ts';
import { stepRemarks } from './step-remarks.ts';
import { MAY_BE_NEEDLESS, TICKABLE, tickStep } from './tick-step.ts';

const SIGNS: Readonly<Record<JobStep['state'], IconNode>> = {
  done: Check,
  now: ArrowRight,
  to_come: Circle,
  skipped: CircleDashed,
  not_needed: Minus,
};

export interface StepRowProps {
  readonly step: JobStep;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function StepRow({ step, followed, recording }: StepRowProps) {
  const { id, state } = step;
  const words = speech.value.wording.steps;
  const isOpen = state !== 'done' && state !== 'not_needed';
  const caution = isOpen ? sayStepCaution(id, speech.value) : '';
  return (
    <li class={`step step-${state}`} data-testid={`step-${id}`} data-state={state}>
      <span class="step-sign">
        <Icon of={SIGNS[state]} />
      </span>
      <div class="step-said">
        <b>{words.names[id]}</b>
        <span class="step-state">
          {[sayStepState(step, speech.value), momentOf(step, recording)]
            .filter((text) => text !== '')
            .join(', ')}
        </span>
        {isOpen && <span>{words.how[id]}</span>}
        {stepRemarks(id, followed, isOpen).map((remark) => (
          <span key={remark} class="step-remark">
            {remark}
          </span>
        ))}
        {caution !== '' && <span class="step-caution">{caution}</span>}
      </div>
      <StepButtons step={step} followed={followed} recording={recording} />
    </li>
  );
}

function momentOf({ atS }: JobStep, recording: Recording): string {
  return atS === null ? '' : momentWords(recording, atS, speech.value);
}

function StepButtons({ step: { id, state, knownBy }, followed, recording }: StepRowProps) {
  const words = speech.value.wording.steps;
  const isTicked = followed.sheet.value.tickedSteps.some(({ step }) => step === id);
  const kind = MARK_OF_STEP[id];
  const isClosing = CLOSING_STEPS.some((one) => one === id);
  const isOffered = state === 'now' || state === 'skipped' || (isClosing && state === 'to_come');
  // A recording that is over takes no marks; what was done after it can still be said.
  const isAfterwards = kind !== undefined && !recording.open;
  const tick = (wanted: 'done' | 'not_needed' | null) => tickStep(id, wanted, followed, recording);
  return (
    <div class="step-buttons">
      {isOffered && kind !== undefined && recording.open && (
        <MarkButton kind={kind} place="step" followed={followed} recording={recording} />
      )}
      {isOffered && (TICKABLE.includes(id) || isAfterwards) && (
        <button type="button" data-testid={`tick-${id}`} onClick={() => tick('done')}>
          {words.done}
        </button>
      )}
      {isOffered && MAY_BE_NEEDLESS.includes(id) && (
        <button type="button" data-testid={`needless-${id}`} onClick={() => tick('not_needed')}>
          {words.notNeeded}
        </button>
      )}
      {isTicked && knownBy === 'hand' && (
        <button type="button" data-testid={`untick-${id}`} onClick={() => tick(null)}>
          {words.takeBack}
        </button>
      )}
    </div>
  );
}
