/** A temperature in the unit of choice, to the degree: '−17 °C'. */
import { type TemperatureUnit, temperatureFromC } from '../../protocol/units.ts';

export function sayTemperature(temperatureC: number, unit: TemperatureUnit): string {
  const degrees = Math.round(temperatureFromC(temperatureC, unit));
  return `${degrees < 0 ? '\u2212' : ''}${Math.abs(degrees)} ${unit}`;
}
