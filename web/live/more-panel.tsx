/** What a technician does now and then, beyond pump, ballast and valve: each with its caution. */
import type { Recording } from '../../protocol/recording.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { DO_BUTTONS, MORE_WORDS } from '../words/say-action.ts';
import { MARK_CAUTIONS } from '../words/say-caution.ts';
import { MARK_BUTTONS } from '../words/say-mark.ts';
import { markNow } from './mark-buttons.tsx';
import { moreChoices } from './mark-choices.ts';

interface MorePanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function MorePanel({ followed, recording }: MorePanelProps) {
  const rehearsal = recording.origin === 'rehearsal';
  return (
    <Panel title={rehearsal ? MORE_WORDS.toDo : MORE_WORDS.toMark} testId="more-panel">
      <p class="quiet">{rehearsal ? MORE_WORDS.doHelp : MORE_WORDS.markHelp}</p>
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
            <b>{(rehearsal ? DO_BUTTONS[kind] : undefined) ?? MARK_BUTTONS[kind]}</b>
            <span>{MARK_CAUTIONS[kind]}</span>
          </button>
        ))}
      </div>
    </Panel>
  );
}
