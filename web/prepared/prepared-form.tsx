/** The fields of one prepared sheet. */
import { useRef, useState } from 'preact/hooks';
import { CORE_PLACES, type SheetEntry, sheetFromEntries } from '../../protocol/sheet.ts';
import { keepPreparedSheet } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { NumberFields, useSheetForm } from '../sheet/sheet-entry.tsx';
import { SheetFields } from '../sheet/sheet-fields.tsx';
import { speech } from '../store/speech.ts';
import { lookForPrepared } from './prepared-list.ts';

const RIG = [
  'pumpDisplacementM3PerS',
  'pumpUltimatePa',
  'pumpBatteryS',
  'hoseBoreM',
  'hoseLengthM',
  'hoseCount',
] as const;

interface PreparedFormProps {
  /** Null: it is a new one. */
  readonly prepared: number | null;
  /** What it begins with. */
  readonly fields: SheetEntry['fields'];
  readonly done: () => void;
}

export function PreparedForm({ prepared, fields, done }: PreparedFormProps) {
  const { prepared: words, sheet: names, rig } = speech.value.wording;
  const isKept = useRef(false);
  const [isRigOpen, setRigOpen] = useState(false);
  const keep = async (changed: SheetEntry['fields']) => {
    const sheet = { prepared, fields: { ...fields, ...changed } };
    isKept.current = (await tell(keepPreparedSheet(sheet))) !== null;
    return isKept.current;
  };
  const entered = async () => {
    // Nothing was typed: what it begins with is kept all the same.
    if (!isKept.current && prepared === null && !(await keep({}))) return;
    await lookForPrepared();
    done();
  };
  const form = useSheetForm(
    sheetFromEntries([{ elapsedS: 0, fields }]),
    keep,
    () => void entered(),
  );
  const isRigWrong = RIG.some((field) => field === form.wrong);
  return (
    <form class="form" onSubmit={form.save} data-testid="prepared-form">
      <SheetFields form={form} />
      <details
        class="wide"
        open={isRigOpen || isRigWrong}
        onToggle={(event) => setRigOpen(event.currentTarget.open)}
      >
        <summary>{rig.title}</summary>
        <div class="form">
          <NumberFields form={form} fields={RIG} />
          <label class="wide">
            {names.names.core}
            <select name="core" value={form.texts.core} onChange={form.write('core')}>
              {CORE_PLACES.map((place) => (
                <option key={place} value={place}>
                  {names.cores[place]}
                </option>
              ))}
            </select>
          </label>
        </div>
      </details>
      {form.wrong !== null && (
        <p class="wrong" role="alert">
          {form.why}
        </p>
      )}
      <button type="submit" class="urgent" data-testid="keep-prepared">
        {words.keep}
      </button>
    </form>
  );
}
