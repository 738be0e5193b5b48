/** The rig: what is known of volume, pump, hoses and cores, and what that should manage. */
import { useState } from 'preact/hooks';
import type { Recording } from '../../protocol/recording.ts';
import { CORE_PLACES, type Sheet } from '../../protocol/sheet.ts';
import { enterOnSheet } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { sheetFromTexts, textsFromSheet } from '../sheet/sheet-form.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { presentS } from '../store/present-time.ts';
import { CORE_NAMES, sayExamples } from '../words/say-rig.ts';
import { SHEET_NAMES, sayWrongField, sheetUnit } from '../words/say-sheet.ts';
import { RigResult } from './rig-result.tsx';

interface RigPanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

const NUMBERS = [
  'volumeM3',
  'pumpDisplacementM3PerS',
  'pumpUltimatePa',
  'hoseBoreM',
  'hoseLengthM',
  'hoseCount',
] as const satisfies readonly (keyof Sheet)[];

export function RigPanel({ followed, recording }: RigPanelProps) {
  const [units] = useState(() => choices.peek());
  const [before, setBefore] = useState(() => textsFromSheet(followed.sheet.peek(), units));
  const [texts, setTexts] = useState(before);
  const [wrong, setWrong] = useState<keyof Sheet | null>(null);
  const examples = sayExamples(units.pressure);
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
    if (Object.keys(read.fields).length === 0) return;
    const elapsedS = presentS(recording, followed.latest.peek()?.elapsedS ?? 0, Date.now());
    void tell(enterOnSheet(recording.id, { elapsedS, fields: read.fields })).then((saved) => {
      if (saved !== null) setBefore(texts);
    });
  };
  return (
    <Panel title="Rig" testId="rig-panel">
      <div role="status">
        <RigResult sheet={followed.sheet.value} />
      </div>
      <form class="form" onSubmit={save}>
        {NUMBERS.map((field) => (
          <label key={field}>
            {[SHEET_NAMES[field], sheetUnit(field, units)].filter(Boolean).join(', ')}
            <input
              name={field}
              inputMode="decimal"
              autoComplete="off"
              placeholder={examples[field]}
              aria-invalid={wrong === field}
              value={texts[field]}
              onInput={write(field)}
            />
          </label>
        ))}
        <label class="wide">
          {SHEET_NAMES.core}
          <select name="core" value={texts.core} onChange={write('core')}>
            {CORE_PLACES.map((place) => (
              <option key={place} value={place}>
                {CORE_NAMES[place]}
              </option>
            ))}
          </select>
        </label>
        {wrong !== null && (
          <p class="wrong" role="alert">
            {sayWrongField(wrong)}
          </p>
        )}
        <button type="submit" class="urgent">
          Enter
        </button>
      </form>
    </Panel>
  );
}
