/** The plain fields of the prepared sheet that is at hand, and the way to what has a panel of its own. */
import { useRef } from 'preact/hooks';
import { keepAtHand, fieldsAtHand, preparedAtHand, sheetAtHand } from './sheet-at-hand.ts';
import { panel, type SheetPanelName } from '../parts/panels.ts';
import { FormTrouble } from '../sheet/form-trouble.tsx';
import { useSheetForm } from '../sheet/sheet-entry.ts';
import { SheetFields } from '../sheet/sheet-fields.tsx';
import { speech } from '../store/speech.ts';

const WITH_PANELS = [
  'rig',
  'volume',
  'nitrogen',
  'cycles',
] as const satisfies readonly SheetPanelName[];

export function PreparedForm({ done }: { readonly done: () => void }) {
  const { prepared: words, menu } = speech.value.wording;
  /** Where to go once all is kept that was typed; null: this sheet is done with. */
  const next = useRef<SheetPanelName | null>(null);
  const keepAll = async () => {
    // Nothing was typed: what it begins with is kept all the same.
    const isNew = preparedAtHand.peek() === null;
    const isToBeKept = next.current === null || Object.keys(fieldsAtHand.peek()).length > 0;
    if (isNew && isToBeKept && !(await keepAtHand({}))) return;
    if (next.current === null) done();
    else panel.value = { prepared: next.current };
  };
  const form = useSheetForm(sheetAtHand.peek(), keepAtHand, () => void keepAll());
  const goTo = (event: Event, name: (typeof WITH_PANELS)[number]) => {
    next.current = name;
    form.save(event);
  };
  const save = (event: Event) => {
    next.current = null;
    form.save(event);
  };
  return (
    <form class="form" onSubmit={save} data-testid="prepared-form">
      <SheetFields form={form} />
      <fieldset class="wide pick">
        <legend>{words.more}</legend>
        {WITH_PANELS.map((name) => (
          <button
            key={name}
            type="button"
            aria-haspopup="dialog"
            data-testid={`prepare-${name}`}
            onClick={(event) => goTo(event, name)}
          >
            {menu.entries[name].title}
          </button>
        ))}
      </fieldset>
      <FormTrouble form={form} />
      <button type="submit" class="urgent" data-testid="keep-prepared">
        {words.keep}
      </button>
    </form>
  );
}
