/** The job sheet: everything may be left empty, nothing blocks the work. */
import type { Recording } from '../../protocol/recording.ts';
import { sheetFromEntries } from '../../protocol/sheet.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { enterNow } from './enter-now.ts';
import { FormTrouble } from './form-trouble.tsx';
import { useSheetForm } from './sheet-entry.ts';
import { SheetFields } from './sheet-fields.tsx';

interface SheetPanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function SheetPanel({ followed, recording }: SheetPanelProps) {
  const form = useSheetForm(
    followed.sheet.peek(),
    (fields) => enterNow(followed, recording, fields),
    () => (panel.value = null),
  );
  const words = speech.value.wording.sheet;
  const entered = sheetFromEntries(followed.entries.value).sensorSees;
  const isFilledIn = followed.sheet.value.sensorSees !== entered;
  return (
    <Panel title={words.title} testId="sheet-panel">
      <form class="form" onSubmit={form.save}>
        <SheetFields form={form} isViewFilledIn={isFilledIn} />
        <FormTrouble form={form} />
        <p class="quiet wide">{words.settings}</p>
        <button type="submit" class="urgent">
          {words.enter}
        </button>
      </form>
    </Panel>
  );
}
