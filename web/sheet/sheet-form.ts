/** The job sheet between what people type, in their units, and the exact fields: pure. */
import { PASS_RULES, type PassRuleId } from '../../protocol/pass-rules.ts';
import { type PlainField, type Sheet, type SheetEntry, sheetSchema } from '../../protocol/sheet.ts';
import {
  isMistakable,
  numberFrom,
  pressureNumberFrom,
  unmistakable,
} from '../typed-in/typed-number.ts';
import { sayExactly } from '../words/say-number.ts';
import { sheetUnit } from '../words/say-sheet.ts';
import type { Speech } from '../words/speech.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';
import { type Scale, scales } from './field-scales.ts';

type Field = PlainField;
export type SheetTexts = Readonly<Record<Field, string>>;

export type ReadSheet =
  | { readonly ok: true; readonly fields: SheetEntry['fields'] }
  /** `mistakable`: it is a number, and might be read as another one. */
  | { readonly ok: false; readonly field: Field; readonly mistakable: boolean };

export function textsFromSheet(sheet: Sheet, speech: Speech): SheetTexts {
  const scale = scales(speech.units);
  const text = (field: Field) => {
    const value = sheet[field];
    if (value === null) return '';
    if (typeof value === 'string') return value;
    return plainNumber(value, scale[field], speech);
  };
  return {
    site: text('site'),
    equipment: text('equipment'),
    refrigerant: text('refrigerant'),
    targetPa: text('targetPa'),
    isolateAtPa: text('isolateAtPa'),
    holdS: text('holdS'),
    endLimitPa: text('endLimitPa'),
    allowedRisePa: text('allowedRisePa'),
    passRule: text('passRule'),
    gaugeErrorShare: text('gaugeErrorShare'),
    leakLimitPaPerS: text('leakLimitPaPerS'),
    volumeM3: text('volumeM3'),
    metalTemperatureC: text('metalTemperatureC'),
    coldestTemperatureC: text('coldestTemperatureC'),
    sensorSees: text('sensorSees'),
    // With its unit, which can be chosen.
    pumpDisplacementM3PerS:
      sheet.pumpDisplacementM3PerS === null ? '' : `${text('pumpDisplacementM3PerS')} L/min`,
    pumpUltimatePa: text('pumpUltimatePa'),
    pumpBatteryS: text('pumpBatteryS'),
    hoseBoreM: text('hoseBoreM'),
    hoseLengthM: text('hoseLengthM'),
    hoseCount: text('hoseCount'),
    core: text('core'),
    seenSection: text('seenSection'),
    stubVolumeM3: text('stubVolumeM3'),
    serial: text('serial'),
    oil: text('oil'),
    systemHistory: text('systemHistory'),
    altitudeM: text('altitudeM'),
    ambientTemperatureC: text('ambientTemperatureC'),
    coldestPlace: text('coldestPlace'),
    people: text('people'),
    valveOrder: text('valveOrder'),
    pumpBallast: text('pumpBallast'),
    pumpOilChangedOn: text('pumpOilChangedOn'),
  };
}

/**
 * The figures that a rule brings with it, as they stand in the form: what is judged by a rule is pumped
 * and held by it too. What the rule does not say is left as it is; for the equipment maker's own nothing
 * is changed.
 */
export function textsForRule(
  id: PassRuleId,
  texts: SheetTexts,
  speech: Speech,
): Partial<Record<Field, string>> {
  if (id === 'own') return { passRule: id };
  const { finalPa, holdS, endLimitPa, allowedRisePa } = PASS_RULES[id];
  const scale = scales(speech.units);
  const filled = (field: Field, value: number | null) =>
    value === null ? {} : { [field]: plainNumber(value, scale[field], speech) };
  const depthPa = readField(texts.isolateAtPa.trim(), scale.isolateAtPa);
  // The hold begins with a small rise: half of what is to be reached leaves room for it.
  const deepEnough = finalPa === null || (typeof depthPa === 'number' && depthPa <= finalPa / 2);
  return {
    passRule: id,
    ...filled('targetPa', finalPa),
    ...(deepEnough ? {} : filled('isolateAtPa', finalPa / 2)),
    ...filled('holdS', holdS),
    ...filled('endLimitPa', endLimitPa),
    ...filled('allowedRisePa', allowedRisePa),
  };
}

/** Only what was changed is an entry: what was left alone keeps its exact value. */
export function sheetFromTexts(
  texts: SheetTexts,
  before: SheetTexts,
  units: UnitsOfChoice,
): ReadSheet {
  const scale = scales(units);
  const fields: Partial<Record<Field, unknown>> = {};
  for (const field of fieldsIn(texts)) {
    const text = texts[field].trim();
    if (text === before[field].trim()) continue;
    const value = readField(text, scale[field]);
    if (!sheetSchema.shape[field].safeParse(value).success) {
      const unit = scale[field]?.unit;
      return { ok: false, field, mistakable: unit !== undefined && isMistakable(text, unit) };
    }
    fields[field] = value;
  }
  return { ok: true, fields: sheetSchema.partial().parse(fields) };
}

/** A value of a field as its form writes it, with the unit: for what is asked about it. */
export function sayFieldValue(field: Field, value: number, speech: Speech): string {
  const figure = plainNumber(value, scales(speech.units)[field], speech);
  return `${figure} ${sheetUnit(field, speech)}`.trim();
}

function readField(text: string, scale: Scale | undefined): unknown {
  if (scale === undefined) return text;
  const { unit, toSi, fromText } = scale;
  if (fromText !== undefined) return finiteOr(fromText(text));
  const value = unit === undefined ? numberFrom(text) : pressureNumberFrom(text, unit);
  if (value === null) return null;
  return finiteOr(toSi(value));
}

function finiteOr(value: number | null): number | null | undefined {
  return value === null || Number.isFinite(value) ? value : undefined;
}

/** Without thousands' gaps, so that it can be typed over; six digits hide the conversion's tail. */
function plainNumber(value: number, scale: Scale | undefined, speech: Speech): string {
  const typed = scale === undefined ? value : scale.fromSi(value);
  const text = sayExactly(Number(typed.toPrecision(6)), speech);
  return scale?.unit === undefined ? text : unmistakable(text, scale.unit);
}

function fieldsIn(texts: SheetTexts): Field[] {
  return Object.keys(texts).filter((name): name is Field => name in texts);
}
