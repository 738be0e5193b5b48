/** A note, dated at the moment at which the panel was opened. */
import { useState } from 'preact/hooks';
import type { Recording } from '../../protocol/recording.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { presentS } from '../store/present-time.ts';
import { speech } from '../store/speech.ts';
import { setMark } from './set-mark.ts';

interface NotePanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function NotePanel({ followed, recording }: NotePanelProps) {
  const words = speech.value.wording.marks;
  const [elapsedS] = useState(() =>
    presentS(recording, followed.latest.peek()?.elapsedS ?? 0, Date.now()),
  );
  const [text, setText] = useState('');
  const save = (event: Event) => {
    event.preventDefault();
    void tell(setMark(recording, 'note', elapsedS, text)).then((saved) => {
      if (saved !== null) panel.value = null;
    });
  };
  return (
    <Panel title={words.noteTitle} testId="note-panel">
      <form class="form" onSubmit={save}>
        <label class="wide">
          {words.noteText}
          <input
            name="text"
            maxLength={500}
            required
            autoFocus
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="urgent">
          {words.putOnCurve}
        </button>
      </form>
    </Panel>
  );
}
