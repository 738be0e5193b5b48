/** A leak in all its units, what it might lose of refrigerant, and the water that was pumped away. */
import type { Estimate } from '../analysis/conclusions.ts';
import type { LeakRate } from '../analysis/leak-rate.ts';
import type { RefrigerantLoss } from '../analysis/refrigerant-loss.ts';
import type { NumberRow } from './list-verdict-numbers.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayNumber } from './say-number.ts';
import { sayPressure } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

/** Air that flows into the vacuum, a row for each unit. All intervals hold nine times of ten. */
export function listLeakRate(rate: LeakRate, units: UnitsOfChoice): NumberRow[] {
  const row = (unit: string, estimate: Estimate): NumberRow => ({
    name: `Inflow of air at ${sayTemperature(rate.temperatureC, units.temperature)}`,
    value: `${sayEstimate(estimate)} ${unit}`,
  });
  return [
    row('Pa·m³/s', rate.paM3PerS),
    row('mbar·L/s', rate.mbarLPerS),
    row('micron·L/s', rate.micronLPerS),
    row('cm³/min, standard (0 °C, 101 325 Pa)', rate.standardCm3PerMin),
    row('g of air a year', rate.airGPerYear),
  ];
}

/** Two digits: an estimate deserves no more. */
function sayEstimate({ estimate, low, high }: Estimate): string {
  return `${sayMagnitude(estimate)} (${sayMagnitude(low)} to ${sayMagnitude(high)})`;
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

/** 'On the plateau about 1.3 (0.6 to 2.8) g of water were pumped away.' */
export function sayWaterRemoved(grams: Estimate): string {
  return `On the plateau about ${sayEstimate(grams)} g of water were pumped away.`;
}

const G_PER_KG = 1000;

function sayGrams(grams: number): string {
  return grams >= G_PER_KG ? `${sayNumber(grams / G_PER_KG)} kg` : `${sayNumber(grams)} g`;
}
