/** Words for typing readings in. */
import type { PressureUnit, TemperatureUnit } from '../../protocol/units.ts';

export const TYPE_IN = 'Type in a reading';
export const TYPE_IN_MENU = 'For a sensor without a radio: each number becomes a reading.';
export const TYPE_IN_NEXT = 'Type in the next reading';
export const TYPE_IN_HELP =
  'Read the sensor now and type what it shows. The reading counts as of the moment at which it is ' +
  'entered. The recording goes on until you end it, or until twelve hours without a number.';
export const END_TYPED_IN = 'End this recording';

export function namePressure(unit: PressureUnit): string {
  return `Absolute pressure, ${unit}`;
}

export function nameMetal(unit: TemperatureUnit): string {
  return `Metal temperature, if measured, ${unit}`;
}

export const TYPED_WRONG = {
  pressure:
    'Pressure: this can’t be. Write the absolute pressure as a number, and look at its unit: no ' +
    'vacuum sensor shows more than two atmospheres.',
  temperature: 'Metal temperature: this can’t be. Write a number, or leave it empty.',
} as const;

/** Beside the number, and at its forecast: it is as old as it is. */
export function sayTypedAt(clock: string): string {
  return `typed in at ${clock}`;
}

export function sayCountedFrom(clock: string): string {
  return `As of the reading typed in at ${clock}.`;
}
