/** A leak in all its units, and what it might lose of refrigerant. */
import type { Estimate } from '../analysis/conclusions.ts';
import type { LeakRate } from '../analysis/leak-rate.ts';
import type { RefrigerantLoss } from '../analysis/refrigerant-loss.ts';
import type { NumberRow } from './number-row.ts';
import { sayBetween } from './say-between.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayNumber } from './say-number.ts';
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
export function sayRefrigerantLoss(loss: RefrigerantLoss): string[] {
  const { refrigerant, pressurePa, leastPower, mostPower } = loss;
  const [least, most] = [sayGrams(10 ** leastPower), sayGrams(10 ** mostPower)];
  return [
    `Through a hole that lets so much air in, ${refrigerant} at ${sayNumber(pressurePa / PA_PER_BAR)} bar absolute would lose between ${least} and ${most} a year as vapour.`,
    'An order of magnitude, between molecular and laminar flow: a hole changes under pressure, and liquid loses far more. The nitrogen test under pressure decides what is tight.',
  ];
}

const G_PER_KG = 1000;
const PA_PER_BAR = 1e5;

/** Powers of ten. */
function sayGrams(grams: number): string {
  return grams >= G_PER_KG ? `${grams / G_PER_KG} kg` : `${Number(grams.toPrecision(1))} g`;
}
