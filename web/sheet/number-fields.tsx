/** Fields for figures, each with its unit. */
import type { PlainField } from '../../protocol/sheet.ts';
import { speech } from '../store/speech.ts';
import { sheetUnit } from '../words/say-sheet.ts';
import { DisplacementField } from './displacement-field.tsx';
import type { SheetEntryForm } from './sheet-entry.ts';

interface NumberFieldsProps {
  readonly form: SheetEntryForm;
  readonly fields: readonly PlainField[];
  readonly examples?: Partial<Record<PlainField, string>>;
}

export function NumberFields({ form, fields, examples = {} }: NumberFieldsProps) {
  return (
    <>
      {fields.map((field) =>
        field === 'pumpDisplacementM3PerS' ? (
          <DisplacementField key={field} form={form} example={examples[field]} />
        ) : (
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
        ),
      )}
    </>
  );
}
