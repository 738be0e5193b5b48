/** The step of a gauge's display, from what was typed: pure. */
import { newSensorLabelSchema } from '../../protocol/sensor-label.ts';
import { type PressureUnit, pressureToPa } from '../../protocol/units.ts';

/** In Pa; null where nothing was typed, undefined for what can't be a step. */
export function displayStepFrom(text: string, unit: PressureUnit): number | null | undefined {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return null;
  const stepPa = pressureToPa(Number(plain), unit);
  const parsed = newSensorLabelSchema.shape.displayStepPa.safeParse(stepPa);
  return parsed.success ? parsed.data : undefined;
}
