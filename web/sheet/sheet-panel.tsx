/** The job sheet: everything may be left empty, nothing blocks the work. */
import type { Recording } from '../../protocol/recording.ts';
import { SENSOR_VIEWS, type Sheet } from '../../protocol/sheet.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { SENSOR_VIEW_NAMES } from '../words/say-sensor-view.ts';
import { SHEET_NAMES, sayWrongField } from '../words/say-sheet.ts';
import { NumberFields, useSheetEntry } from './sheet-entry.tsx';

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
  const form = useSheetEntry(followed, recording, () => (panel.value = null));
  const { texts, wrong, write } = form;
  return (
    <Panel title="Job sheet" testId="sheet-panel">
      <form class="form" onSubmit={form.save}>
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
        <NumberFields form={form} fields={NUMBERS} />
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
