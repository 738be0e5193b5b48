/** From what was typed of a nitrogen test to facts: pure. */
import { gaugeFromUnit, type GaugeUnit, inGaugeUnit } from '../../protocol/gauge-pressure.ts';
import {
  MOST_NITROGEN_READINGS,
  MOST_NITROGEN_STEPS,
  type NitrogenGauge,
  nitrogenGaugeSchema,
  type NitrogenReading,
  nitrogenReadingsSchema,
} from '../../protocol/nitrogen-test.ts';
import { temperatureToC } from '../../protocol/units.ts';
import { agoFrom } from '../typed-in/ago-from.ts';
import { isMistakable, numberFrom } from '../typed-in/typed-number.ts';
import { sayExactly } from '../words/say-number.ts';
import type { Speech } from '../words/speech.ts';

export interface NitrogenTexts {
  readonly pressure: string;
  readonly temperature: string;
  readonly when: string;
  readonly step: string;
  readonly note: string;
  readonly justFilled: boolean;
}

type ReadNitrogen =
  | {
      readonly ok: true;
      readonly readings: NitrogenReading[];
      /** The one that was typed. */
      readonly added: NitrogenReading;
    }
  | {
      readonly ok: false;
      readonly wrong: 'pressure' | 'temperature' | 'when' | 'step' | 'tooMany';
    };

/** A test that stands over a weekend is entered after it: no silence ends that, as it does a vacuum gauge's visit. */
const LONGEST_AGO_S = 7 * 86_400;

/** @param nowMs wall clock, milliseconds since 1970 UTC */
export function withReading(
  before: readonly NitrogenReading[],
  texts: NitrogenTexts,
  unit: GaugeUnit,
  speech: Speech,
  nowMs: number,
): ReadNitrogen {
  if (before.length >= MOST_NITROGEN_READINGS) return { ok: false, wrong: 'tooMany' };
  const shown = gaugeNumber(texts.pressure, unit);
  // A pump's vacuum is no test pressure.
  if (shown === null || !(shown >= 0)) return { ok: false, wrong: 'pressure' };
  const agoS = agoFrom(texts.when, nowMs, speech.wording.typeIn.now, LONGEST_AGO_S);
  if (agoS === null) return { ok: false, wrong: 'when' };
  const typed = numberFrom(texts.temperature);
  const temperatureC = typed === null ? null : temperatureToC(typed, speech.units.temperature);
  const step = numberFrom(texts.step) ?? 1;
  if (!Number.isInteger(step) || step < 1 || step > MOST_NITROGEN_STEPS) {
    return { ok: false, wrong: 'step' };
  }
  const reading = {
    atMs: Math.round(nowMs - agoS * 1000),
    pressure: gaugeFromUnit(shown, unit),
    temperatureC,
    step,
    justFilled: texts.justFilled,
    note: texts.note.trim(),
  };
  const readings = nitrogenReadingsSchema.safeParse(
    [...before, reading].sort((a, b) => a.atMs - b.atMs),
  );
  if (readings.success) return { ok: true, readings: readings.data, added: reading };
  const isCold = readings.error.issues.some(({ path }) => path.includes('temperatureC'));
  return { ok: false, wrong: isCold ? 'temperature' : 'pressure' };
}

export interface GaugeTexts {
  readonly accuracy: string;
  readonly accuracyOf: NitrogenGauge['accuracyOf'];
  readonly fullScale: string;
  readonly finest: string;
  readonly thermometer: string;
  readonly ambient: string;
  readonly makersMost: string;
}
type NumberField = Exclude<keyof GaugeTexts, 'accuracyOf'>;

const PERCENT = 100;
const PA_PER_KPA = 1000;
const DEGREES_PER_K = { '°C': 1, '°F': 1.8 };

export function textsFromGauge(gauge: NitrogenGauge, unit: GaugeUnit, speech: Speech): GaugeTexts {
  const said = (value: number) => sayExactly(Number(value.toPrecision(4)), speech);
  const { ambientPa, makersMost } = gauge;
  return {
    accuracy: said(gauge.accuracyShare * PERCENT),
    accuracyOf: gauge.accuracyOf,
    fullScale: said(inGaugeUnit(gauge.fullScale.gaugePa, unit)),
    finest: said(inGaugeUnit(gauge.stepPa, unit)),
    thermometer: said(gauge.thermometerK * DEGREES_PER_K[speech.units.temperature]),
    ambient: ambientPa === null ? '' : said(ambientPa / PA_PER_KPA),
    makersMost: makersMost === null ? '' : said(inGaugeUnit(makersMost.gaugePa, unit)),
  };
}

type ReadGauge =
  | { readonly ok: true; readonly gauge: NitrogenGauge }
  | { readonly ok: false; readonly wrong: NumberField };

/** What was left as it stood keeps its exact value. */
export function gaugeFromTexts(
  texts: GaugeTexts,
  before: NitrogenGauge,
  unit: GaugeUnit,
  speech: Speech,
): ReadGauge {
  const stood = textsFromGauge(before, unit, speech);
  const changed = (field: NumberField, value: (typed: number) => unknown, kept: unknown) => {
    if (texts[field].trim() === stood[field]) return kept;
    const typed = numberFrom(texts[field]);
    return typed === null ? null : value(typed);
  };
  const pressure = (typed: number) => gaugeFromUnit(typed, unit);
  const perK = DEGREES_PER_K[speech.units.temperature];
  const read = {
    accuracyShare: changed('accuracy', (typed) => typed / PERCENT, before.accuracyShare),
    accuracyOf: texts.accuracyOf,
    fullScale: changed('fullScale', pressure, before.fullScale),
    stepPa: changed('finest', (typed) => pressure(typed).gaugePa, before.stepPa),
    thermometerK: changed('thermometer', (typed) => typed / perK, before.thermometerK),
    ambientPa: changed('ambient', (typed) => typed * PA_PER_KPA, before.ambientPa),
    makersMost: changed('makersMost', pressure, before.makersMost),
  };
  const parsed = nitrogenGaugeSchema.safeParse(read);
  if (parsed.success) return { ok: true, gauge: parsed.data };
  const path = parsed.error.issues[0]?.path[0];
  return { ok: false, wrong: FIELDS.find(([name]) => name === path)?.[1] ?? 'accuracy' };
}

const FIELDS: readonly (readonly [keyof NitrogenGauge, NumberField])[] = [
  ['accuracyShare', 'accuracy'],
  ['fullScale', 'fullScale'],
  ['stepPa', 'finest'],
  ['thermometerK', 'thermometer'],
  ['ambientPa', 'ambient'],
  ['makersMost', 'makersMost'],
];

/** '1,500' is refused in the units in which it may be fifteen hundred. */
function gaugeNumber(text: string, unit: GaugeUnit): number | null {
  const isCoarse = unit === 'psi' || unit === 'kPa';
  return isCoarse && isMistakable(text, 'Pa') ? null : numberFrom(text);
}
