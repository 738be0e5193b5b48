/** The pump's displacement: a figure, the unit that stands on its plate, and the same in the other units. */
import { useState } from 'preact/hooks';
import { speech } from '../store/speech.ts';
import { sayNumber } from '../words/say-number.ts';
import {
  DISPLACEMENT_UNITS,
  displacementFrom,
  displacementParts,
  type DisplacementUnit,
  M3_PER_S_IN,
} from './displacement.ts';
import type { SheetEntryForm } from './sheet-entry.ts';

const FIELD = 'pumpDisplacementM3PerS';

interface DisplacementFieldProps {
  readonly form: SheetEntryForm;
  readonly example: string | undefined;
}

export function DisplacementField({ form, example }: DisplacementFieldProps) {
  const words = speech.value.wording.sheet;
  const text = form.texts[FIELD];
  const parts = displacementParts(text);
  /** Of an empty field. */
  const [awaited, setAwaited] = useState<DisplacementUnit>('L/min');
  const unit = parts?.unit ?? awaited;
  const put = (figure: string, chosen: DisplacementUnit) => {
    setAwaited(chosen);
    form.fill({ [FIELD]: figure === '' ? '' : `${figure} ${chosen}` });
  };
  const type = (typed: string) => {
    const withUnit = displacementParts(typed);
    if (withUnit !== null) put(withUnit.figure, withUnit.unit);
    // Another way of writing a unit stays as it is typed.
    else if (/[^\d\s.,]/u.test(typed)) form.fill({ [FIELD]: typed });
    else put(typed.trim(), unit);
  };
  const m3PerS = displacementFrom(text);
  return (
    <label class="wide">
      {words.names[FIELD]}
      <span class="with-unit">
        <input
          name={FIELD}
          inputMode="decimal"
          autoComplete="off"
          placeholder={example}
          aria-invalid={form.wrong === FIELD}
          value={parts?.figure ?? text}
          onInput={(event) => type(event.currentTarget.value)}
        />
        <select
          name="displacement-unit"
          aria-label={words.unit}
          value={unit}
          onChange={({ currentTarget: { value } }) => {
            const chosen = DISPLACEMENT_UNITS.find((one) => one === value);
            if (chosen !== undefined) put(parts?.figure ?? text, chosen);
          }}
        >
          {DISPLACEMENT_UNITS.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      </span>
      {m3PerS !== null && Number.isFinite(m3PerS) && (
        <span class="quiet" data-testid="displacement-same">
          {`= ${inOthers(m3PerS, unit)}`}
        </span>
      )}
    </label>
  );
}

function inOthers(m3PerS: number, unit: DisplacementUnit): string {
  return DISPLACEMENT_UNITS.filter((one) => one !== unit)
    .map((one) => `${sayNumber(m3PerS / M3_PER_S_IN[one], speech.value)} ${one}`)
    .join(' = ');
}
