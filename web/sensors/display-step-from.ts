/** The step of a gauge's display, from what was typed: pure. */
import { newSensorLabelSchema } from '../../protocol/sensor-label.ts';
import { type PressureUnit, pressureToPa } from '../../protocol/units.ts';
import { pressureNumberFrom } from '../typed-in/typed-number.ts';

/** In Pa; null where nothing was typed, undefined for what can't be a step. */
export function displayStepFrom(text: string, unit: PressureUnit): number | null | undefined {
  const typed = pressureNumberFrom(text, unit);
  if (typed === null) return null;
  const stepPa = pressureToPa(typed, unit);
  const parsed = newSensorLabelSchema.shape.displayStepPa.safeParse(stepPa);
  return parsed.success ? parsed.data : undefined;
}
