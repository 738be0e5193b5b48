/** Why a form was not entered: what can't be, or what is asked about first. */
import { speech } from '../store/speech.ts';
import { sayFieldValue } from './sheet-form.ts';
import { DISPLACEMENT_UNITS, displacementParts, M3_PER_S_IN } from './displacement.ts';
import { numberFrom } from '../typed-in/typed-number.ts';
import type { SheetEntryForm } from './sheet-entry.ts';
import { isUsualDisplacement } from './usual-figures.ts';

export function FormTrouble({ form }: { readonly form: SheetEntryForm }) {
  const words = speech.value.wording.sheet;
  if (form.wrong !== null) {
    return (
      <p class="wrong" role="alert">
        {form.why}
      </p>
    );
  }
  if (form.unusual === null) return null;
  const { field, value, usual } = form.unusual;
  const said = (figure: number) => sayFieldValue(field, figure, form.spoken);
  const typed = form.texts[field].trim();
  const figure = field === 'pumpDisplacementM3PerS' ? typed : said(value);
  const [name, low, high] = [words.names[field], said(usual.low), said(usual.high)];
  return (
    <div class="wide unusual" role="alert" data-testid="unusual">
      <p class="wrong">{words.unusual({ name, figure, low, high })}</p>
      <div class="row">
        {field === 'pumpDisplacementM3PerS' &&
          likelier(typed).map((text) => (
            <button
              key={text}
              type="button"
              onClick={() => form.fill({ pumpDisplacementM3PerS: text })}
            >
              {words.itIsSo({ figure: text })}
            </button>
          ))}
        <button type="button" data-testid="it-is-so" onClick={form.itIsSo}>
          {words.itIsSo({ figure })}
        </button>
      </div>
    </div>
  );
}

/** The same figure in units in which it would be usual. */
function likelier(text: string): string[] {
  const figure = displacementParts(text)?.figure ?? '';
  const value = numberFrom(figure);
  if (value === null) return [];
  return DISPLACEMENT_UNITS.filter((unit) => isUsualDisplacement(value * M3_PER_S_IN[unit])).map(
    (unit) => `${figure} ${unit}`,
  );
}
