/** Asks what the sensor sees, as long as nobody has said it on this visit. */
import type { Recording } from '../../protocol/recording.ts';
import { sheetFromEntries } from '../../protocol/sheet.ts';
import { clockWords } from '../parts/clock-words.ts';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { askWhetherStill, wasSaidBefore } from '../words/say-sensor.ts';

interface AskViewProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function AskView({ followed, recording }: AskViewProps) {
  const isAsked = recording.open || recording.origin === 'import';
  if (!isAsked || recording.origin === 'rehearsal') return null;
  if (followed.sheet.value.sensorSees === 'unknown') {
    return (
      <button type="button" class="ask-view" onClick={() => (panel.value = 'sheet')}>
        {speech.value.wording.smallPrint.askView}
      </button>
    );
  }
  const label = recording.sensors[followed.channel.value]?.label ?? null;
  const isEntered = sheetFromEntries(followed.entries.value).sensorSees !== 'unknown';
  if (label === null || isEntered || !wasSaidBefore(label, recording)) return null;
  return (
    <button
      type="button"
      class="ask-view"
      data-testid="still-there"
      onClick={() => (panel.value = 'sensors')}
    >
      {askWhetherStill(label, clockWords(label.givenAtMs, speech.value), speech.value)}
    </button>
  );
}
