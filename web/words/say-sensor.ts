/** What a sensor is called, and where it sits. */
import type { RecordedSensor, Recording } from '../../protocol/recording.ts';
import type { SensorLabel, SensorPlace } from '../../protocol/sensor-label.ts';

export const PLACE_NAMES: Readonly<Record<SensorPlace, string>> = {
  unknown: 'not said',
  system: 'at the system',
  pump: 'at the pump',
};

export const SENSOR_WORDS = {
  title: 'Sensors: names and places',
  menu: 'A name of your own for each, and where it sits.',
  rename: 'Name this sensor',
  help:
    'Give each sensor a name that says something at the site, and say where it is connected. Both are ' +
    'remembered for this sensor. One at the pump gives no verdict on the system.',
  name: 'Name',
  place: 'It sits',
  step: 'Its display goes in steps of',
  stepWrong: 'The step: a number above zero, or leave it empty.',
  save: 'Save',
  saved: 'Saved.',
  offered: 'not one that speaks the profile. Give it a name to hear it.',
  choose: 'Sensors in reach',
  inReach: 'In reach',
  none: 'No sensor that could be named is being recorded. One appears here with its first reading.',
} as const;

/** How well it is heard: in words, with the number for whoever compares two places. */
export function saySignal(dbm: number): string {
  const word = dbm > -70 ? 'good' : dbm > -88 ? 'fair' : 'weak';
  return `signal ${word} (${String(dbm).replace('-', '−')} dBm)`;
}

/** A clock that was put right, for the maker's ears. */
export function sayClock(fastPercent: number): string {
  const size = Math.abs(fastPercent).toPrecision(2);
  return `its clock runs ${size} % ${fastPercent > 0 ? 'fast' : 'slow'}, which is reckoned with`;
}

export const ASK_VIEW = 'What does the sensor see? No verdict on the system without it.';

/** A place is remembered from visit to visit, and a sensor may have been moved since. */
export function wasSaidBefore(label: SensorLabel, { startedAtMs }: Recording): boolean {
  return label.place !== 'unknown' && label.givenAtMs < startedAtMs;
}

/** @param said when it was said, already written out */
export function askWhetherStill({ place }: SensorLabel, said: string): string {
  return `Taken to sit ${PLACE_NAMES[place]}, as was said ${said}. Still so? Save it again, or change it.`;
}

/** In a report: what nobody confirmed during the recording says so. */
export function sayPlace(label: SensorLabel, recording: Recording, said: string): string {
  const place = PLACE_NAMES[label.place];
  return wasSaidBefore(label, recording) ? `${place}, as was said before, ${said}` : place;
}

/** A name that says nothing is better than none: a reading is somebody's. */
const NAMELESS = 'Sensor';

/** As the technician calls it, else as it calls itself. */
function saySensor({ name, label }: Pick<RecordedSensor, 'name' | 'label'>): string {
  if (label !== null && label.name !== '') return label.name;
  return name === '' ? NAMELESS : name;
}

/** Of all of a recording, told apart: two of a kind get a number where they have the same name. */
export function saySensors(sensors: readonly RecordedSensor[]): string[] {
  const names = sensors.map(saySensor);
  return names.map((name, at) => {
    const isAlone = names.indexOf(name) === names.lastIndexOf(name);
    const number = names.slice(0, at + 1).filter((other) => other === name).length;
    return isAlone ? name : `${name} (${number})`;
  });
}

/** What it calls itself, where the technician calls it something else: 'VS-2 of its maker, serial 12'. */
export function sayOwnIdentity({ name, id, manufacturer, model, serial }: RecordedSensor): string {
  const known = [
    name,
    [manufacturer, model].filter(isTold).join(' '),
    isTold(serial) ? `serial number ${serial}` : null,
  ].filter(isTold);
  return known.length > 0 ? known.join(', ') : `known to this computer as ${id}`;
}

function isTold(text: string | null): text is string {
  return text !== null && text !== '';
}
