/** Entering a part of the job sheet: what every form over it has in common. */
import { useState } from 'preact/hooks';
import type { PlainField, Sheet, SheetEntry } from '../../protocol/sheet.ts';
import { speech } from '../store/speech.ts';
import type { Speech } from '../words/speech.ts';
import { sayWrongField, sheetUnit } from '../words/say-sheet.ts';
import { type SheetTexts, sheetFromTexts, textsFromSheet } from './sheet-form.ts';

export interface SheetEntryForm {
  /** What is being typed stays in the units and digits in which it was begun. */
  readonly spoken: Speech;
  readonly texts: SheetTexts;
  /** The field that can't be read, once it was tried. */
  readonly wrong: PlainField | null;
  /** What is wrong with it. */
  readonly why: string;
  readonly write: (field: PlainField) => (event: { currentTarget: { value: string } }) => void;
  /** Several at once, as where one choice brings figures with it. */
  readonly fill: (texts: Partial<SheetTexts>) => void;
  readonly save: (event: Event) => void;
}

/**
 * @param sheet as it stands when the form is opened
 * @param keep what was changed; resolves to whether it is kept
 * @param entered it is, or nothing was changed
 */
export function useSheetForm(
  sheet: Sheet,
  keep: (fields: SheetEntry['fields']) => Promise<boolean>,
  entered: () => void,
): SheetEntryForm {
  const [spoken] = useState(() => speech.peek());
  const [before, setBefore] = useState(() => textsFromSheet(sheet, spoken));
  const [texts, setTexts] = useState(before);
  const [wrong, setWrong] = useState<PlainField | null>(null);
  const [mistakable, setMistakable] = useState(false);
  const write: SheetEntryForm['write'] = (field) => (event) => {
    setWrong(null);
    setTexts({ ...texts, [field]: event.currentTarget.value });
  };
  const fill: SheetEntryForm['fill'] = (filled) => {
    setWrong(null);
    setTexts({ ...texts, ...filled });
  };
  const save = (event: Event) => {
    event.preventDefault();
    const read = sheetFromTexts(texts, before, spoken.units);
    if (!read.ok) {
      setWrong(read.field);
      setMistakable(read.mistakable);
      return;
    }
    if (Object.keys(read.fields).length === 0) {
      entered();
      return;
    }
    void keep(read.fields).then((isKept) => {
      if (!isKept) return;
      setBefore(texts);
      entered();
    });
  };
  const why =
    wrong === null ? '' : sayWrongField(wrong, mistakable ? texts[wrong] : null, speech.value);
  return { spoken, texts, wrong, why, write, fill, save };
}

interface NumberFieldsProps {
  readonly form: SheetEntryForm;
  readonly fields: readonly PlainField[];
  readonly examples?: Partial<Record<PlainField, string>>;
}

export function NumberFields({ form, fields, examples = {} }: NumberFieldsProps) {
  return (
    <>
      {fields.map((field) => (
        <label key={field}>
          {[speech.value.wording.sheet.names[field], sheetUnit(field, form.spoken)]
            .filter(Boolean)
            .join(', ')}
          <input
            name={field}
            inputMode="decimal"
            autoComplete="off"
            placeholder={examples[field]}
            aria-invalid={form.wrong === field}
            value={form.texts[field]}
            onInput={form.write(field)}
          />
        </label>
      ))}
    </>
  );
}
