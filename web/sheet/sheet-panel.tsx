/** The job sheet: everything may be left empty, nothing blocks the work. */
import { useState } from 'preact/hooks';
import type { Recording } from '../../protocol/recording.ts';
import { SENSOR_VIEWS, type Sheet } from '../../protocol/sheet.ts';
import { enterOnSheet } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { presentS } from '../store/present-time.ts';
import { SENSOR_VIEW_NAMES } from '../words/say-sensor-view.ts';
import { SHEET_NAMES, sayWrongField, sheetUnit } from '../words/say-sheet.ts';
import { sheetFromTexts, textsFromSheet } from './sheet-form.ts';

interface SheetPanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

const NUMBERS = [
  'targetPa',
  'isolateAtPa',
  'holdS',
  'endLimitPa',
  'allowedRisePa',
  'leakLimitPaPerS',
  'volumeM3',
  'metalTemperatureC',
  'coldestTemperatureC',
] as const satisfies readonly (keyof Sheet)[];

export function SheetPanel({ followed, recording }: SheetPanelProps) {
  const [units] = useState(() => choices.peek());
  const [before] = useState(() => textsFromSheet(followed.sheet.peek(), units));
  const [texts, setTexts] = useState(before);
  const [wrong, setWrong] = useState<keyof Sheet | null>(null);
  const write = (field: keyof Sheet) => (event: { currentTarget: { value: string } }) => {
    setWrong(null);
    setTexts({ ...texts, [field]: event.currentTarget.value });
  };
  const save = (event: Event) => {
    event.preventDefault();
    const read = sheetFromTexts(texts, before, units);
    if (!read.ok) {
      setWrong(read.field);
      return;
    }
    if (Object.keys(read.fields).length === 0) {
      panel.value = null;
      return undefined;
    }
    const elapsedS = presentS(recording, followed.latest.peek()?.elapsedS ?? 0, Date.now());
    void tell(enterOnSheet(recording.id, { elapsedS, fields: read.fields })).then((saved) => {
      if (saved !== null) panel.value = null;
    });
    return undefined;
  };
  return (
    <Panel title="Job sheet" testId="sheet-panel">
      <form class="form" onSubmit={save}>
        <label class="wide">
          {SHEET_NAMES.site}
          <input name="site" maxLength={200} value={texts.site} onInput={write('site')} />
        </label>
        <label class="wide">
          {SHEET_NAMES.equipment}
          <input
            name="equipment"
            maxLength={200}
            value={texts.equipment}
            onInput={write('equipment')}
          />
        </label>
        <label class="wide">
          {SHEET_NAMES.sensorSees}
          <select name="sensorSees" value={texts.sensorSees} onChange={write('sensorSees')}>
            {SENSOR_VIEWS.map((view) => (
              <option key={view} value={view}>
                {SENSOR_VIEW_NAMES[view]}
              </option>
            ))}
          </select>
        </label>
        {NUMBERS.map((field) => (
          <label key={field}>
            {SHEET_NAMES[field]}, {sheetUnit(field, units)}
            <input
              name={field}
              inputMode="decimal"
              autoComplete="off"
              aria-invalid={wrong === field}
              value={texts[field]}
              onInput={write(field)}
            />
          </label>
        ))}
        {wrong !== null && (
          <p class="wrong" role="alert">
            {sayWrongField(wrong)}
          </p>
        )}
        <p class="quiet wide">
          The equipment maker’s figures come first; what stands here at the start are settings of
          ours. Half the target is a good depth to valve off at.
        </p>
        <button type="submit" class="urgent">
          Enter
        </button>
      </form>
    </Panel>
  );
}
