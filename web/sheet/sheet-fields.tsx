/** The fields of the job sheet, grouped so that what is asked first stands first. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { REFRIGERANT_NUMBERS } from '../../protocol/refrigerants.ts';
import {
  OIL_TYPES,
  type PlainField,
  SENSOR_VIEWS,
  SYSTEM_HISTORIES,
} from '../../protocol/sheet.ts';
import { speech } from '../store/speech.ts';
import { numberFrom } from '../typed-in/typed-number.ts';
import {
  sayAtmosphere,
  sayHistoryAdvice,
  sayOilAdvice,
  sayRefrigerantSafety,
} from '../words/say-sheet-advice.ts';
import { RuleChoice } from './rule-choice.tsx';
import { NumberFields } from './number-fields.tsx';
import type { SheetEntryForm } from './sheet-entry.ts';

const NUMBERS: readonly PlainField[] = [
  'targetPa',
  'isolateAtPa',
  'holdS',
  'endLimitPa',
  'allowedRisePa',
  'volumeM3',
];
/** What makes the numbers say more, and is rarely known at the start. */
const MORE: readonly PlainField[] = ['gaugeErrorShare', 'leakLimitPaPerS'];
const SYSTEM: readonly PlainField[] = ['serial', 'refrigerant', 'oil', 'systemHistory'];
const TEMPERATURES: readonly PlainField[] = [
  'altitudeM',
  'ambientTemperatureC',
  'metalTemperatureC',
  'coldestTemperatureC',
];
const PLACE: readonly PlainField[] = [...TEMPERATURES, 'coldestPlace'];
const PEOPLE: readonly PlainField[] = ['people', 'valveOrder'];

interface SheetFieldsProps {
  readonly form: SheetEntryForm;
  /** What the sensor sees was taken from where it sits. */
  readonly isViewFilledIn?: boolean;
}

export function SheetFields({ form, isViewFilledIn = false }: SheetFieldsProps) {
  const words = speech.value.wording.sheet;
  const { texts, write } = form;
  return (
    <>
      <div class="wide pair">
        <TextField form={form} field="site" />
        <TextField form={form} field="equipment" />
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
        {isViewFilledIn && <span class="quiet">{words.viewFilledIn}</span>}
      </label>
      <RuleChoice form={form} />
      <NumberFields form={form} fields={NUMBERS} />
      <Group form={form} fields={SYSTEM} name={words.groups.system} testId="sheet-system">
        <SystemFields form={form} />
      </Group>
      <Group form={form} fields={PLACE} name={words.groups.place} testId="sheet-place">
        <PlaceFields form={form} />
      </Group>
      <Group form={form} fields={PEOPLE} name={words.groups.people} testId="sheet-people">
        <TextField form={form} field="people" wide />
        <label class="wide">
          {words.names.valveOrder}
          <textarea
            name="valveOrder"
            rows={3}
            maxLength={500}
            value={texts.valveOrder}
            onInput={write('valveOrder')}
          />
          <span class="quiet">{words.valveOrderHelp}</span>
        </label>
      </Group>
      <Group form={form} fields={MORE} name={words.more} testId="sheet-more">
        <NumberFields form={form} fields={MORE} />
        <p class="quiet wide">{words.moreHelp}</p>
      </Group>
    </>
  );
}

interface GroupProps {
  readonly form: SheetEntryForm;
  readonly fields: readonly PlainField[];
  readonly name: string;
  readonly testId: string;
  readonly children: ComponentChildren;
}

function Group({ form, fields, name, testId, children }: GroupProps) {
  // Once open it stays so: it must not close over the field that is being put right.
  const [isOpen, setOpen] = useState(false);
  const isWrong = fields.some((field) => field === form.wrong);
  return (
    <details
      class="wide"
      open={isOpen || isWrong}
      data-testid={testId}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{name}</summary>
      <div class="form">{children}</div>
    </details>
  );
}

interface TextFieldProps {
  readonly form: SheetEntryForm;
  readonly field: PlainField;
  readonly wide?: boolean;
}

function TextField({ form, field, wide = false }: TextFieldProps) {
  return (
    <label class={wide ? 'wide' : ''}>
      {speech.value.wording.sheet.names[field]}
      <input name={field} maxLength={200} value={form.texts[field]} onInput={form.write(field)} />
    </label>
  );
}

function SystemFields({ form }: { readonly form: SheetEntryForm }) {
  const words = speech.value.wording.sheet;
  const { texts, write } = form;
  const safety = sayRefrigerantSafety(texts.refrigerant, speech.value);
  const oil = OIL_TYPES.find((one) => one === texts.oil) ?? 'unknown';
  const history = SYSTEM_HISTORIES.find((one) => one === texts.systemHistory) ?? 'unknown';
  const advice = [sayHistoryAdvice(history, speech.value), sayOilAdvice(oil, speech.value)].filter(
    (text) => text !== '',
  );
  return (
    <>
      <TextField form={form} field="serial" />
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
      <label>
        {words.names.oil}
        <select name="oil" value={texts.oil} onChange={write('oil')}>
          {OIL_TYPES.map((one) => (
            <option key={one} value={one}>
              {words.oils[one]}
            </option>
          ))}
        </select>
      </label>
      <label class="wide">
        {words.names.systemHistory}
        <select name="systemHistory" value={texts.systemHistory} onChange={write('systemHistory')}>
          {SYSTEM_HISTORIES.map((one) => (
            <option key={one} value={one}>
              {words.histories[one]}
            </option>
          ))}
        </select>
      </label>
      {safety !== null && (
        <div class="wide" data-testid="safety-class" role="status">
          <p>
            <b>{safety.safetyClass}</b> <span class="quiet">{safety.source}</span>
          </p>
          {safety.cautions.map((caution) => (
            <p key={caution} class="caution">
              {caution}
            </p>
          ))}
        </div>
      )}
      {advice.length > 0 && (
        <p class="wide" data-testid="system-advice" role="status">
          {advice.join(' ')} <span class="quiet">{words.adviceSource}</span>
        </p>
      )}
    </>
  );
}

function PlaceFields({ form }: { readonly form: SheetEntryForm }) {
  const altitudeM = numberFrom(form.texts.altitudeM);
  const isKnown = altitudeM !== null && altitudeM >= -500 && altitudeM <= 6000;
  return (
    <>
      <NumberFields form={form} fields={TEMPERATURES} />
      <TextField form={form} field="coldestPlace" />
      {isKnown && (
        <p class="wide" data-testid="atmosphere" role="status">
          {sayAtmosphere(altitudeM, speech.value)}
        </p>
      )}
    </>
  );
}
