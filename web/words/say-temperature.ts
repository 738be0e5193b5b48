/** A temperature in the unit of choice, to the degree: '−17 °C'. */
import { temperatureFromC } from '../../protocol/units.ts';
import { sayExactly } from './say-number.ts';
import type { Speech } from './speech.ts';

export function sayTemperature(temperatureC: number, { units }: Speech): string {
  const degrees = Math.round(temperatureFromC(temperatureC, units.temperature));
  return `${degrees < 0 ? '\u2212' : ''}${Math.abs(degrees)} ${units.temperature}`;
}

/** Where a degree is a psi, whole ones are too coarse: '21.5 °C'. */
export function sayTenths(temperatureC: number, speech: Speech): string {
  const { temperature } = speech.units;
  const degrees = Math.round(temperatureFromC(temperatureC, temperature) * 10) / 10;
  return `${sayExactly(degrees, speech)} ${temperature}`;
}
