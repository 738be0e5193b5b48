/** Words for typing readings in. */
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import type { PressureUnit, TemperatureUnit } from '../../protocol/units.ts';
import { sayPressure, saySetting } from './say-pressure.ts';
import { PLACE_NAMES } from './say-sensor.ts';

export const TYPE_IN = 'Type in readings';
export const TYPE_IN_MENU = 'For a gauge without a radio: each number becomes a reading.';
export const TYPE_IN_NEXT = 'Type in the next reading';
export const TYPE_IN_HELP =
  'Read the gauge, type what it shows, Enter, and so on. Each counts as of now; for one that was ' +
  'read before, write 12:40 or −2 min. The recording goes on until you end it, or until twelve ' +
  'hours without a number.';
export const END_TYPED_IN = 'End this recording';

export const TYPED_IN_WORDS = {
  enter: 'Enter',
  when: 'Read at',
  now: 'now',
  gauge: 'Your gauge',
  gaugeUnsaid: 'Your gauge: what it is called, where it sits, how fine it shows',
  last: 'Typed last',
  correct: 'Put right',
  correctTo: 'It should be',
  takeBack: 'Take it back',
  leave: 'Leave it',
} as const;

export function namePressure(unit: PressureUnit): string {
  return `Absolute pressure, ${unit}`;
}

export function nameMetal(unit: TemperatureUnit): string {
  return `Metal, if measured, ${unit}`;
}

export const TYPED_WRONG = {
  pressure:
    'Pressure: this can’t be. Write the absolute pressure as a number, and look at its unit: no ' +
    'vacuum sensor shows more than two atmospheres.',
  when:
    'Read at: this can’t be. Write a time of day as 12:40, or −2 min, or leave it empty for now; ' +
    'eleven hours back at most.',
  temperature: 'Metal temperature: this can’t be. Write a number, or leave it empty.',
} as const;

/** Beside the number, and at its forecast: it is as old as it is. */
export function sayTypedAt(clock: string): string {
  return `typed in at ${clock}`;
}

/** Of one that was read before it was typed in, and of any that is the last one: when it was read. */
export function sayCountedFrom(clock: string): string {
  return `As of the reading typed in at ${clock}.`;
}

/** 'Your gauge: roof gauge, at the system, steps of 1 micron'. */
export function sayGauge({ name, place, displayStepPa }: SensorLabel, unit: PressureUnit): string {
  const said = [
    name,
    place === 'unknown' ? '' : PLACE_NAMES[place],
    displayStepPa === null ? '' : `steps of ${saySetting(displayStepPa, unit)}`,
  ].filter((part) => part !== '');
  return said.length === 0
    ? TYPED_IN_WORDS.gaugeUnsaid
    : `${TYPED_IN_WORDS.gauge}: ${said.join(', ')}`;
}

/** What stands in the place of a slip. */
export function sayInstead(insteadPa: number | null, unit: PressureUnit): string {
  return insteadPa === null ? 'taken back' : `put right to ${sayPressure(insteadPa, unit)}`;
}

/** The number that was not taken, so that nobody has to remember it. */
export function sayNotEntered(pressure: string, why: string): string {
  return `${pressure} was not entered. ${why}`;
}
