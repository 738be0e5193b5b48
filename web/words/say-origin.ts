/** Where a recording comes from: said wherever one is listed or shown. */
import type { Recording } from '../../protocol/recording.ts';
import { sayRehearsalTitle } from './say-reveal.ts';
import { saySensors } from './say-sensor.ts';

export const READ_IN_FILE = 'Read in a file';
export const READ_IN_HELP =
  'A file with a column of times and one of pressures becomes a recording of its own, marked as ' +
  'imported. You see how it is read before anything is kept; the same file again makes another one.';

/** In a list: what it is, and by which sensors. */
export function sayRecording({ origin, title, sensors }: Recording): string {
  const names = saySensors(sensors);
  switch (origin) {
    case 'sensor':
      return ['Job', ...names].join(', ');
    case 'rehearsal':
      return [sayRehearsalTitle(title), ...names].join(', ');
    case 'import':
      return `Imported: ${title}`;
    case 'typed_in':
      return ['Job, typed in by hand', ...givenNames(sensors)].join(', ');
  }
}

/** @param began when it began, or when the file was read in, already written out */
export function sayWhen({ origin, open }: Recording, began: string): string {
  if (origin === 'import') return `read in ${began}`;
  return open ? `recording since ${began}` : `recorded ${began}`;
}

/** In a list, where the time comes first. */
export function sayWhenInList({ origin, open }: Recording, began: string): string {
  if (origin === 'import') return `read in ${began}`;
  return open ? `${began}, running` : began;
}

/**
 * In place of what a sensor is doing, where none is heard: a file, or a technician who types. Null
 * where it is a sensor that there is something to say of.
 * @param last when the last reading was typed in, already written out
 */
export function sayUnheard({ origin, title, sensors }: Recording, last: string): string | null {
  if (origin === 'import') return `${title}, imported`;
  if (origin !== 'typed_in') return null;
  return [...givenNames(sensors), 'typed in', `last at ${last}`].join(', ');
}

/** A gauge without a radio is nobody until it has been named. */
function givenNames(sensors: Recording['sensors']): string[] {
  return sensors.flatMap(({ label }) => (label === null || label.name === '' ? [] : [label.name]));
}

/** Of a recording that has ended, while no other one runs. */
export function sayOver({ origin }: Recording): string | null {
  switch (origin) {
    case 'rehearsal':
      return null;
    case 'import':
      return 'This was read in from a file. The next reading of a sensor starts a recording by itself.';
    case 'sensor':
    case 'typed_in':
      return 'This recording has ended. The next reading starts a new one by itself.';
  }
}
