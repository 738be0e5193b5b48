/** What a technician does now and then, beyond pump, ballast and valve: each with its caution. */
import type { Recording } from '../../protocol/recording.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayDoing, sayMarkCaution } from '../words/say-action.ts';
import { markNow } from './mark-buttons.tsx';
import { moreChoices } from './mark-choices.ts';

interface MorePanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function MorePanel({ followed, recording }: MorePanelProps) {
  const words = speech.value.wording.marks;
  const rehearsal = recording.origin === 'rehearsal';
  return (
    <Panel title={rehearsal ? words.toDo : words.toMark} testId="more-panel">
      <p class="quiet">{rehearsal ? words.doHelp : words.markHelp}</p>
      <div class="menu">
        {moreChoices(followed.marks.value, rehearsal).map((kind) => (
          <button
            key={kind}
            type="button"
            data-testid={`mark-${kind}`}
            onClick={() => {
              markNow(kind, followed, recording);
              // Whatever the answer is, it shows on the page: on the curve, or as a notice.
              panel.value = null;
            }}
          >
            <b>{sayDoing(kind, rehearsal, speech.value)}</b>
            <span>{sayMarkCaution(kind, speech.value)}</span>
          </button>
        ))}
      </div>
    </Panel>
  );
}
