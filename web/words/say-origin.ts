/** Where a recording comes from: said wherever one is listed or shown. */
import type { Recording } from '../../protocol/recording.ts';
import { sayRehearsalTitle } from './say-rehearsal.ts';
import { saySensors } from './say-sensor.ts';
import type { Speech } from './speech.ts';

/** In a list: what it is, and by which sensors. */
export function sayRecording({ origin, title, sensors }: Recording, speech: Speech): string {
  const words = speech.wording.recordings;
  const names = saySensors(sensors, speech);
  switch (origin) {
    case 'sensor':
      return [words.job, ...names].join(', ');
    case 'rehearsal':
      return [sayRehearsalTitle(title, speech), ...names].join(', ');
    case 'import':
      return words.imported({ title });
    case 'typed_in':
      return [words.jobTypedIn, ...givenNames(sensors)].join(', ');
  }
}

/** @param began when it began, or when the file was read in, already written out */
export function sayWhen({ origin, open }: Recording, began: string, { wording }: Speech): string {
  const words = wording.recordings;
  if (origin === 'import') return words.readInAt({ at: began });
  return open ? words.recordingSince({ at: began }) : words.recordedAt({ at: began });
}

/** In a list, where the time comes first. */
export function sayWhenInList(
  { origin, open }: Recording,
  began: string,
  { wording }: Speech,
): string {
  const words = wording.recordings;
  if (origin === 'import') return words.readInAt({ at: began });
  return open ? words.running({ at: began }) : began;
}

/**
 * In place of what a sensor is doing, where none is heard: a file, or a technician who types. Null
 * where it is a sensor that there is something to say of.
 * @param last when the last reading was typed in, already written out
 */
export function sayUnheard(
  { origin, title, sensors }: Recording,
  last: string,
  { wording }: Speech,
): string | null {
  const words = wording.recordings;
  if (origin === 'import') return words.importedFile({ title });
  if (origin !== 'typed_in') return null;
  return [...givenNames(sensors), words.typedIn, words.lastAt({ at: last })].join(', ');
}

/** A gauge without a radio is nobody until it has been named. */
function givenNames(sensors: Recording['sensors']): string[] {
  return sensors.flatMap(({ label }) => (label === null || label.name === '' ? [] : [label.name]));
}

/** Of a recording that has ended, while no other one runs. */
export function sayOver({ origin }: Recording, { wording }: Speech): string | null {
  switch (origin) {
    case 'rehearsal':
      return null;
    case 'import':
      return wording.recordings.overImport;
    case 'sensor':
    case 'typed_in':
      return wording.recordings.over;
  }
}
