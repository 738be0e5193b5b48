/** Entering a part of the job sheet: what every form over it has in common. */
import { useState } from 'preact/hooks';
import type { PlainField, Sheet, SheetEntry } from '../../protocol/sheet.ts';
import { speech } from '../store/speech.ts';
import type { Speech } from '../words/speech.ts';
import { sayWrongField } from '../words/say-sheet.ts';
import { type UnusualField, unusualIn } from './usual-figures.ts';
import { type SheetTexts, sheetFromTexts, textsFromSheet } from './sheet-form.ts';

export interface SheetEntryForm {
  /** What is being typed stays in the units and digits in which it was begun. */
  readonly spoken: Speech;
  readonly texts: SheetTexts;
  /** The field that can't be read, once it was tried. */
  readonly wrong: PlainField | null;
  /** What is wrong with it. */
  readonly why: string;
  /** What can be, and is far from usual: nothing is entered until somebody says that it is so. */
  readonly unusual: UnusualField | null;
  readonly itIsSo: (event: Event) => void;
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
  const [unusual, setUnusual] = useState<UnusualField | null>(null);
  const write: SheetEntryForm['write'] = (field) => (event) => {
    setWrong(null);
    setUnusual(null);
    setTexts({ ...texts, [field]: event.currentTarget.value });
  };
  const fill: SheetEntryForm['fill'] = (filled) => {
    setWrong(null);
    setUnusual(null);
    setTexts({ ...texts, ...filled });
  };
  const enter = (event: Event, isSaidSo: boolean) => {
    event.preventDefault();
    const read = sheetFromTexts(texts, before, spoken.units);
    if (!read.ok) {
      setWrong(read.field);
      setMistakable(read.mistakable);
      return;
    }
    const found = isSaidSo ? null : unusualIn(read.fields);
    setUnusual(found);
    if (found !== null) return;
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
  return {
    spoken,
    texts,
    wrong,
    why,
    unusual,
    write,
    fill,
    save: (event) => enter(event, false),
    itIsSo: (event) => enter(event, true),
  };
}
