/** The rig: what is known of volume, pump, hoses and cores, and what that should manage. */
import { PUMP_BALLASTS } from '../../protocol/rig-facts.ts';
import { CORE_PLACES, type PlainField } from '../../protocol/sheet.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { OpenSheet } from '../sheet/open-sheet.ts';
import { FormTrouble } from '../sheet/form-trouble.tsx';
import { NumberFields } from '../sheet/number-fields.tsx';
import { useSheetForm } from '../sheet/sheet-entry.ts';
import { speech } from '../store/speech.ts';
import { sayExamples } from '../words/say-rig.ts';
import { RigResult } from './rig-result.tsx';

interface RigPanelProps {
  readonly open: OpenSheet;
  /** The pump check goes by readings. */
  readonly hasReadings: boolean;
}

const NUMBERS = [
  'pumpDisplacementM3PerS',
  'volumeM3',
  'pumpUltimatePa',
  'pumpBatteryS',
  'hoseBoreM',
  'hoseLengthM',
  'hoseCount',
] as const satisfies readonly PlainField[];

export function RigPanel({ open, hasReadings }: RigPanelProps) {
  const form = useSheetForm(open.sheet.peek(), open.enter, () => undefined);
  const { texts, spoken, write } = form;
  const { planning, rig, sheet: words } = speech.value.wording;
  return (
    <Panel title={rig.title} testId="rig-panel">
      {open.above}
      <div role="status">
        <RigResult sheet={open.sheet.value} />
      </div>
      <div class="row">
        <button type="button" data-testid="rig-to-volume" onClick={() => open.show('volume')}>
          {planning.volume.title}
        </button>
        {hasReadings && (
          <button
            type="button"
            data-testid="rig-to-pump-check"
            onClick={() => (panel.value = 'pump-check')}
          >
            {planning.pumpCheck.title}
          </button>
        )}
      </div>
      <form class="form" onSubmit={form.save}>
        <NumberFields form={form} fields={NUMBERS} examples={sayExamples(spoken)} />
        <label class="wide">
          {words.names.core}
          <select name="core" value={texts.core} onChange={write('core')}>
            {CORE_PLACES.map((place) => (
              <option key={place} value={place}>
                {words.cores[place]}
              </option>
            ))}
          </select>
        </label>
        <label>
          {words.names.pumpBallast}
          <select name="pumpBallast" value={texts.pumpBallast} onChange={write('pumpBallast')}>
            {PUMP_BALLASTS.map((ballast) => (
              <option key={ballast} value={ballast}>
                {words.ballasts[ballast]}
              </option>
            ))}
          </select>
        </label>
        <label class="two-thirds">
          {words.names.pumpOilChangedOn}
          <input
            name="pumpOilChangedOn"
            maxLength={200}
            value={texts.pumpOilChangedOn}
            onInput={write('pumpOilChangedOn')}
          />
        </label>
        <FormTrouble form={form} />
        <button type="submit" class="urgent">
          {words.enter}
        </button>
      </form>
    </Panel>
  );
}
