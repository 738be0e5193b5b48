/** Whether water alone can stand as high as the gauge shows. */
import type { VapourCheck } from '../analysis/vapour-check.ts';
import { sayPressure } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

const OUTCOMES: Readonly<Record<VapourCheck['outcome'], string>> = {
  below: 'it stands well below, where water alone can stand',
  near: 'it stands about there, where water comes to rest',
  above: 'it stands well above: there is more than water',
};

/** '17 500 micron at 20 °C: it stands well below, where water alone can stand'. */
export function sayVapour(
  { vapourPa, metalC, outcome }: VapourCheck,
  units: UnitsOfChoice,
): string {
  const place = `${sayPressure(vapourPa, units.pressure)} at ${sayTemperature(metalC, units.temperature)}`;
  return `${place}: ${OUTCOMES[outcome]}`;
}
