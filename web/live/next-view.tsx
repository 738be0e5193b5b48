/** What to do next, and the marks that can be set. */
import { useState } from 'preact/hooks';
import type { MarkKind } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Freshness } from '../store/freshness.ts';
import { nextStep } from '../steps/next-step.ts';
import { MARK_BUTTONS } from '../words/say-mark.ts';
import { sayNextStep } from '../words/say-next-step.ts';
import { markChoices } from './mark-choices.ts';
import { setMark } from './set-mark.ts';

interface NextViewProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
}

export function NextView({ followed, recording, state }: NextViewProps) {
  const [busy, setBusy] = useState(false);
  const conclusions = followed.conclusions.value;
  const step =
    conclusions === null ? null : nextStep(conclusions, followed.sheet.value, followed.marks.value);
  const words = step === null ? null : sayNextStep(step, choices.value);
  const current = state.kind === 'live' || state.kind === 'paused';
  const mark = (kind: MarkKind) => {
    if (kind === 'note') {
      panel.value = 'note';
      return;
    }
    setBusy(true);
    const elapsedS = followed.latest.value?.elapsedS ?? 0;
    void tell(setMark(recording, kind, elapsedS)).then(() => setBusy(false));
  };
  const urgent: MarkKind | null =
    step?.kind === 'valve_off'
      ? 'isolated'
      : step?.kind === 'close_ballast'
        ? 'ballast_closed'
        : null;
  return (
    <>
      {words !== null && step !== null && (current || state.kind === 'ended') && (
        <section class="next" data-testid="next" data-step={step.kind}>
          <i>Next</i>
          <b>{words.todo}</b>
          <span>{words.how}</span>
          {urgent !== null && current && (
            <button
              type="button"
              class="urgent"
              data-testid={`prompt-${urgent}`}
              disabled={busy}
              onClick={() => mark(urgent)}
            >
              {MARK_BUTTONS[urgent]}
            </button>
          )}
        </section>
      )}
      {recording.open && (
        <div class="marks" role="group" aria-label="Mark what happens now">
          {markChoices(followed.marks.value, recording.origin === 'rehearsal').map((kind) => (
            <button
              key={kind}
              type="button"
              data-testid={`mark-${kind}`}
              disabled={busy}
              onClick={() => mark(kind)}
            >
              {MARK_BUTTONS[kind]}
            </button>
          ))}
        </div>
      )}
    </>
  );
}
