/** The steps of some places of the work, each place under its name. */
import type { Recording } from '../../protocol/recording.ts';
import { stepsOf } from '../analysis/closing/steps-of.ts';
import { ShutOffNote } from '../live/shut-off-note.tsx';
import { momentWords } from '../parts/moment-words.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { freshness } from '../store/freshness.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import type { CautionPlace } from '../words/say-caution.ts';
import { sayNextStep } from '../words/say-next-step.ts';
import { sayLost } from '../words/say-steps.ts';
import { nextOf } from './next-of.ts';
import { nowStep } from './now-step.ts';
import { StepRow } from './step-row.tsx';
import { STEPS_AT } from './step-places.ts';
import './steps.css';

interface StepListProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly places: readonly CautionPlace[];
}

export function StepList({ session, followed, recording, places }: StepListProps) {
  const { work } = speech.value.wording;
  const conclusions = followed.conclusions.value;
  const state = freshness(
    session.connection.value,
    recording,
    session.source.value,
    session.record.value,
  );
  const next = nextOf(followed, state);
  const water = followed.numbers.value?.water ?? null;
  const isKnown = next !== null || conclusions === null;
  const steps = stepsOf({
    conclusions,
    marks: followed.marks.value,
    sheet: followed.sheet.value,
    hasBoiledOff: water === null ? null : water.kind !== 'no_plateau',
    now: isKnown ? nowStep(next, conclusions) : null,
  });
  const said = next === null ? null : sayNextStep(next, speech.value);
  return (
    <>
      {said !== null && (
        <div class="steps-next" role="status" data-testid="steps-next">
          <b>{said.todo}</b>
          <span>{said.how}</span>
        </div>
      )}
      {places.map((place) => (
        <section key={place} class="steps-place">
          {places.length > 1 && <h2>{work.places[place]}</h2>}
          {place === 'closing_up' && (
            <>
              <ShutOffNote followed={followed} recording={recording} />
              <Lost followed={followed} recording={recording} />
            </>
          )}
          <ol class="steps">
            {steps
              .filter(({ id }) => STEPS_AT[place].includes(id))
              .map((step) => (
                <StepRow key={step.id} step={step} followed={followed} recording={recording} />
              ))}
          </ol>
        </section>
      ))}
    </>
  );
}

/** A jump before the release, in large letters where the hands are: it passed, and is lost now. */
function Lost({ followed, recording }: Pick<StepListProps, 'followed' | 'recording'>) {
  const rise = followed.conclusions.value?.rise ?? null;
  const { holdS } = followed.sheet.value;
  if (rise === null || rise.heldS < holdS) return null;
  const loss = followed.vacuumLoss(rise.sinceS, rise.sinceS + holdS);
  if (loss === null) return null;
  const at = momentWords(recording, loss.atS, speech.value);
  return (
    <p class="step-lost" role="alert" data-testid="closing-lost">
      {sayLost(loss, at, speech.value)}
    </p>
  );
}
