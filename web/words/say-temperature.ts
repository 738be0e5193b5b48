/** A temperature in the unit of choice, to the degree: '−17 °C'. */
import { temperatureFromC } from '../../protocol/units.ts';
import type { Speech } from './speech.ts';

export function sayTemperature(temperatureC: number, { units }: Speech): string {
  const degrees = Math.round(temperatureFromC(temperatureC, units.temperature));
  return `${degrees < 0 ? '\u2212' : ''}${Math.abs(degrees)} ${units.temperature}`;
}
