/** A leak in all its units, and what it might lose of refrigerant. */
import type { Estimate } from '../analysis/conclusions.ts';
import type { LeakRate } from '../analysis/leak-rate.ts';
import type { RefrigerantLoss } from '../analysis/refrigerant-loss.ts';
import type { NumberRow } from './number-row.ts';
import { sayBetween } from './say-between.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayNumber } from './say-number.ts';
import { sayPressure } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

/** Air that flows into the vacuum, a row for each unit. All intervals hold nine times of ten. */
export function listLeakRate(rate: LeakRate): NumberRow[] {
  const row = (unit: string, estimate: Estimate): NumberRow => ({
    name: `In ${unit}`,
    value: sayBetween(estimate, sayMagnitude, ''),
  });
  return [
    row('Pa·m³/s', rate.paM3PerS),
    row('mbar·L/s', rate.mbarLPerS),
    row('micron·L/s', rate.micronLPerS),
    row('standard cm³/min', rate.standardCm3PerMin),
    row('g of air a year', rate.airGPerYear),
  ];
}

/** @param temperatureKnown false where nobody entered it, and a usual one is taken */
export function sayLeakRateConditions(
  { temperatureC }: LeakRate,
  volume: string,
  temperatureKnown: boolean,
  units: UnitsOfChoice,
): string {
  const temperature = sayTemperature(temperatureC, units.temperature);
  const taken = temperatureKnown ? temperature : `${temperature} (taken: nobody entered it)`;
  return `Air from outside into the vacuum, gas at ${taken}, volume ${volume} taken as exact. Standard: 0 °C, 101 325 Pa. Under pressure another amount flows.`;
}

/** A range of powers of ten, and why it is no more than that. */
export function sayRefrigerantLoss(loss: RefrigerantLoss, units: UnitsOfChoice): string[] {
  const { refrigerant, pressurePa, leastPower, mostPower } = loss;
  const [least, most] = [sayGrams(10 ** leastPower), sayGrams(10 ** mostPower)];
  return [
    `Through a hole that lets so much air in, ${refrigerant} at ${sayPressure(pressurePa, units.pressure)} absolute would lose between ${least} and ${most} a year as vapour.`,
    'An order of magnitude, between molecular and laminar flow: a hole changes under pressure, and liquid loses far more. The nitrogen test under pressure decides what is tight.',
  ];
}

const G_PER_KG = 1000;

function sayGrams(grams: number): string {
  return grams >= G_PER_KG ? `${sayNumber(grams / G_PER_KG)} kg` : `${sayNumber(grams)} g`;
}
