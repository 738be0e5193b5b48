/** Whether water alone can stand as high as the gauge shows. */
import type { VapourCheck } from '../analysis/flows/vapour-check.ts';
import { sayPressure } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { Speech } from './speech.ts';

/** '17 500 micron at 20 °C: it stands well below, where water alone can stand'. */
export function sayVapour({ vapourPa, metalC, outcome }: VapourCheck, speech: Speech): string {
  return speech.wording.numbers.makes.vapourAt[outcome]({
    pressure: sayPressure(vapourPa, speech),
    temperature: sayTemperature(metalC, speech),
  });
}
