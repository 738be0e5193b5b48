/** A leak in all its units, and what it might lose of refrigerant. */
import type { Estimate } from '../analysis/conclusions.ts';
import type { LeakRate } from '../analysis/flows/leak-rate.ts';
import type { RefrigerantLoss } from '../analysis/flows/refrigerant-loss.ts';
import type { NumberRow } from './number-row.ts';
import { sayBetween } from './say-between.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayExactly, sayNumber } from './say-number.ts';
import { sayTemperature } from './say-temperature.ts';
import type { Speech } from './speech.ts';

/** Air that flows into the vacuum, a row for each unit. All intervals hold nine times of ten. */
export function listLeakRate(rate: LeakRate, speech: Speech): NumberRow[] {
  const { amounts, numbers } = speech.wording;
  const digits = (value: number) => sayMagnitude(value, speech);
  const row = (unit: string, estimate: Estimate): NumberRow => ({
    name: numbers.leak.inUnit({ unit }),
    value: sayBetween(estimate, digits, (amount) => amount, speech),
  });
  return [
    row('Pa·m³/s', rate.paM3PerS),
    row('mbar·L/s', rate.mbarLPerS),
    row(`${amounts.units.micron}·L/s`, rate.micronLPerS),
    row(numbers.leak.standardCm3PerMin, rate.standardCm3PerMin),
    row(numbers.leak.airGPerYear, rate.airGPerYear),
  ];
}

/** @param temperatureKnown false where nobody entered it, and a usual one is taken */
export function sayLeakRateConditions(
  { temperatureC }: LeakRate,
  volume: string,
  temperatureKnown: boolean,
  speech: Speech,
): string {
  const words = speech.wording.numbers.leak;
  const entered = sayTemperature(temperatureC, speech);
  const temperature = temperatureKnown ? entered : words.temperatureTaken({ temperature: entered });
  return words.conditions({ temperature, volume });
}

/** A range of powers of ten, and why it is no more than that. */
export function sayRefrigerantLoss(loss: RefrigerantLoss, speech: Speech): string[] {
  const words = speech.wording.numbers.leak;
  const { refrigerant, pressurePa, leastPower, mostPower } = loss;
  const pressure = sayNumber(pressurePa / PA_PER_BAR, speech);
  const [least, most] = [sayGrams(10 ** leastPower, speech), sayGrams(10 ** mostPower, speech)];
  return [words.wouldLose({ refrigerant, pressure, least, most }), words.magnitudeOnly];
}

const G_PER_KG = 1000;
const PA_PER_BAR = 1e5;

/** Powers of ten. */
function sayGrams(grams: number, speech: Speech): string {
  return grams >= G_PER_KG
    ? `${sayExactly(grams / G_PER_KG, speech)} kg`
    : `${sayExactly(Number(grams.toPrecision(1)), speech)} g`;
}
