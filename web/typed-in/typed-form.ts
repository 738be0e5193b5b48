/** From what was typed, in the units of choice, to a reading: pure. */
import { type TypedReading, typedReadingSchema } from '../../protocol/typed-in.ts';
import { pressureToPa, temperatureToC } from '../../protocol/units.ts';
import type { Speech } from '../words/speech.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';
import { agoFrom } from './ago-from.ts';

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
  if (isPerhapsThousands(text, units)) return null;
  const typed = numberFrom(text);
  const parsed = typedReadingSchema.shape.pressurePa.safeParse(
    typed === null ? null : pressureToPa(typed, units.pressure),
  );
  return parsed.success ? parsed.data : null;
}

/**
 * '1,500' or '1.500' is a thousand and a half to some and one and a half to others. In these units no gauge
 * shows a thousandth, and a pressure that is a thousand times too low would be a depth that was never there.
 */
function isPerhapsThousands(text: string, { pressure }: UnitsOfChoice): boolean {
  const isCoarse = pressure === 'micron' || pressure === 'Pa';
  return isCoarse && /^[1-9]\d{0,2}[.,]\d{3}$/u.test(text.trim());
}

/** Null where nothing was typed, NaN where it was no number. */
function numberFrom(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return plain === '' ? null : Number(plain);
}
