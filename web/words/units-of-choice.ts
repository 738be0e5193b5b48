/** The units in which a person wants to read. */
import type { PressureUnit, TemperatureUnit } from '../../protocol/units.ts';

export interface UnitsOfChoice {
  readonly pressure: PressureUnit;
  readonly temperature: TemperatureUnit;
}
