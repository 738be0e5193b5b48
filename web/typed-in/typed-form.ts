/** From what was typed, in the units of choice, to a reading: pure. */
import { type TypedReading, typedReadingSchema } from '../../protocol/api.ts';
import { pressureToPa, temperatureToC } from '../../protocol/units.ts';
import type { UnitsOfChoice } from '../words/units-of-choice.ts';

export type ReadTyped =
  | { readonly ok: true; readonly reading: TypedReading }
  | { readonly ok: false; readonly wrong: 'pressure' | 'temperature' };

export function readTyped(pressure: string, temperature: string, units: UnitsOfChoice): ReadTyped {
  const pressurePa = numberFrom(pressure);
  const parsedPa = typedReadingSchema.shape.pressurePa.safeParse(
    pressurePa === null ? null : pressureToPa(pressurePa, units.pressure),
  );
  if (!parsedPa.success) return { ok: false, wrong: 'pressure' };
  const typed = numberFrom(temperature);
  const parsedC = typedReadingSchema.shape.temperatureC.safeParse(
    typed === null ? null : temperatureToC(typed, units.temperature),
  );
  if (!parsedC.success) return { ok: false, wrong: 'temperature' };
  return { ok: true, reading: { pressurePa: parsedPa.data, temperatureC: parsedC.data } };
}

/** Null where nothing was typed, NaN where it was no number. */
function numberFrom(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return plain === '' ? null : Number(plain);
}
