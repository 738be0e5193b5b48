/** From what was typed, in the units of choice, to a reading: pure. */
import { type TypedReading, typedReadingSchema } from '../../protocol/typed-in.ts';
import { pressureToPa, temperatureToC } from '../../protocol/units.ts';
import type { Speech } from '../words/speech.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';
import { agoFrom } from './ago-from.ts';
import { numberFrom, pressureNumberFrom } from './typed-number.ts';

/** As it stands in the form. */
export interface TypedTexts {
  readonly pressure: string;
  /** '12:40', '-2 min', 'now' or nothing. */
  readonly when: string;
  readonly temperature: string;
}

export type ReadTyped =
  | { readonly ok: true; readonly reading: TypedReading }
  | { readonly ok: false; readonly wrong: keyof TypedTexts };

/** @param nowMs wall clock, milliseconds since 1970 UTC */
export function readTyped(
  texts: TypedTexts,
  { units, wording }: Pick<Speech, 'units' | 'wording'>,
  nowMs: number,
): ReadTyped {
  const pressurePa = pressureFrom(texts.pressure, units);
  if (pressurePa === null) return { ok: false, wrong: 'pressure' };
  const agoS = agoFrom(texts.when, nowMs, wording.typeIn.now);
  if (agoS === null) return { ok: false, wrong: 'when' };
  const typed = numberFrom(texts.temperature);
  const parsedC = typedReadingSchema.shape.temperatureC.safeParse(
    typed === null ? null : temperatureToC(typed, units.temperature),
  );
  if (!parsedC.success) return { ok: false, wrong: 'temperature' };
  return { ok: true, reading: { pressurePa, temperatureC: parsedC.data, agoS } };
}

/** Absolute, Pa; null for what can't be one. */
export function pressureFrom(text: string, units: UnitsOfChoice): number | null {
  const typed = pressureNumberFrom(text, units.pressure);
  const parsed = typedReadingSchema.shape.pressurePa.safeParse(
    typed === null ? null : pressureToPa(typed, units.pressure),
  );
  return parsed.success ? parsed.data : null;
}
