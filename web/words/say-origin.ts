/** Where a recording comes from: said wherever one is listed or shown. */
import type { Recording } from '../../protocol/recording.ts';
import { sayRehearsalTitle } from './say-reveal.ts';

export const READ_IN_FILE = 'Read in a file';
export const READING_FILE_IN = 'Reading it in…';
export const READ_IN_HELP =
  'A CSV file with elapsed_s, pressure_pa and event becomes a recording of its own, marked as ' +
  'imported. The same file again makes another one.';

/** In a list: what it is, and by which sensors. */
export function sayRecording({ origin, title, sensors }: Recording): string {
  const names = sensors.map(({ name }) => name);
  switch (origin) {
    case 'sensor':
      return ['Job', ...names].join(', ');
    case 'rehearsal':
      return [sayRehearsalTitle(title), ...names].join(', ');
    case 'import':
      return `Imported: ${title}`;
    case 'typed_in':
      return 'Job, typed in by hand';
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
export function sayUnheard({ origin, title }: Recording, last: string): string | null {
  if (origin === 'import') return `${title}, imported`;
  return origin === 'typed_in' ? `typed in, last at ${last}` : null;
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
