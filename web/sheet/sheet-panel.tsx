/** The job sheet: everything may be left empty, nothing blocks the work. */
import { useState } from 'preact/hooks';
import { REFRIGERANT_NUMBERS } from '../../protocol/refrigerants.ts';
import type { Recording } from '../../protocol/recording.ts';
import { type PlainField, SENSOR_VIEWS, sheetFromEntries } from '../../protocol/sheet.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { RuleChoice } from './rule-choice.tsx';
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
  'volumeM3',
] as const satisfies readonly PlainField[];

/** What makes the numbers say more, and is rarely known at the start. */
const MORE = [
  'gaugeErrorShare',
  'leakLimitPaPerS',
  'metalTemperatureC',
  'coldestTemperatureC',
] as const satisfies readonly PlainField[];

export function SheetPanel({ followed, recording }: SheetPanelProps) {
  const form = useSheetEntry(followed, recording, () => (panel.value = null));
  const { texts, wrong, write } = form;
  const words = speech.value.wording.sheet;
  // Once open it stays so: it must not close over the field that is being put right.
  const [isMoreOpen, setMoreOpen] = useState(false);
  const entered = sheetFromEntries(followed.entries.value).sensorSees;
  const isFilledIn = followed.sheet.value.sensorSees !== entered;
  const isMoreWrong = MORE.some((field) => field === wrong);
  return (
    <Panel title={words.title} testId="sheet-panel">
      <form class="form" onSubmit={form.save}>
        <div class="wide pair">
          <label>
            {words.names.site}
            <input name="site" maxLength={200} value={texts.site} onInput={write('site')} />
          </label>
          <label>
            {words.names.equipment}
            <input
              name="equipment"
              maxLength={200}
              value={texts.equipment}
              onInput={write('equipment')}
            />
          </label>
        </div>
        <label class="wide">
          {words.names.sensorSees}
          <select name="sensorSees" value={texts.sensorSees} onChange={write('sensorSees')}>
            {SENSOR_VIEWS.map((view) => (
              <option key={view} value={view}>
                {words.views[view]}
              </option>
            ))}
          </select>
          {isFilledIn && <span class="quiet">{words.viewFilledIn}</span>}
        </label>
        <RuleChoice form={form} />
        <NumberFields form={form} fields={NUMBERS} />
        <details
          class="wide"
          open={isMoreOpen || isMoreWrong}
          data-testid="sheet-more"
          onToggle={(event) => setMoreOpen(event.currentTarget.open)}
        >
          <summary>{words.more}</summary>
          <div class="form">
            <NumberFields form={form} fields={MORE} />
            <label>
              {words.names.refrigerant}
              <select name="refrigerant" value={texts.refrigerant} onChange={write('refrigerant')}>
                <option value="unknown">{words.refrigerantUnknown}</option>
                {REFRIGERANT_NUMBERS.map((number) => (
                  <option key={number} value={number}>
                    {number}
                  </option>
                ))}
              </select>
            </label>
          </div>
          <p class="quiet">{words.moreHelp}</p>
        </details>
        {wrong !== null && (
          <p class="wrong" role="alert">
            {form.why}
          </p>
        )}
        <p class="quiet wide">{words.settings}</p>
        <button type="submit" class="urgent">
          {words.enter}
        </button>
      </form>
    </Panel>
  );
}
