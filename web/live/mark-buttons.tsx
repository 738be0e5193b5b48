/** What can be marked now, as buttons. */
import { signal } from '@preact/signals';
import type { MarkKind } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { presentS } from '../store/present-time.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { markChoices } from './mark-choices.ts';
import { setMark } from './set-mark.ts';

interface MarkButtonsProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function MarkButtons({ followed, recording }: MarkButtonsProps) {
  const words = speech.value.wording.marks;
  if (!may('assist')) return null;
  return (
    <div class="marks" role="group" aria-label={words.group}>
      {markChoices(followed.marks.value, recording.origin === 'rehearsal').map((kind) => (
        <MarkButton key={kind} kind={kind} followed={followed} recording={recording} />
      ))}
      <button
        type="button"
        data-testid="more-marks"
        aria-haspopup="dialog"
        onClick={() => (panel.value = 'more')}
      >
        {recording.origin === 'rehearsal' ? words.toDoButton : words.toMarkButton}
      </button>
    </div>
  );
}

interface MarkButtonProps extends MarkButtonsProps {
  readonly kind: MarkKind;
  /** The one thing to do now stands out. */
  readonly urgent?: boolean;
  /** The same button may stand at several places. */
  readonly place?: 'alert' | 'step';
}

/** A mark on its way: a second press must not set it twice. */
const onItsWay = signal(false);

export function markNow(kind: MarkKind, followed: FollowedRecording, recording: Recording): void {
  onItsWay.value = true;
  const elapsedS = presentS(recording, followed.latest.peek()?.elapsedS ?? 0, Date.now());
  void tell(setMark(recording, kind, elapsedS)).then(() => (onItsWay.value = false));
}

export function MarkButton({ kind, followed, recording, urgent = false, place }: MarkButtonProps) {
  if (!may('assist')) return null;
  const press = () => {
    if (kind === 'note') {
      panel.value = 'note';
      return;
    }
    markNow(kind, followed, recording);
  };
  return (
    <button
      type="button"
      class={urgent ? 'urgent' : ''}
      data-testid={`${place ?? (urgent ? 'prompt' : 'mark')}-${kind}`}
      disabled={onItsWay.value}
      onClick={press}
    >
      {speech.value.wording.marks.buttons[kind]}
    </button>
  );
}
