/** What a sensor is called, and where it sits. */
import {
  type RecordedSensor,
  type Recording,
  REHEARSAL_SENSOR_ID,
} from '../../protocol/recording.ts';
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { TYPED_IN_SENSOR_ID } from '../../protocol/typed-in.ts';
import { sayExactly } from './say-number.ts';
import type { Speech } from './speech.ts';

/** How well it is heard: in words, with the number for whoever compares two places. */
export function saySignal(signalDbm: number, speech: Speech): string {
  const words = speech.wording.sensors.signals;
  const dbm = sayExactly(signalDbm, speech);
  if (signalDbm > -70) return words.good({ dbm });
  return signalDbm > -88 ? words.fair({ dbm }) : words.weak({ dbm });
}

/** A clock that was put right, for the maker's ears. */
export function sayClock(fastPercent: number, speech: Speech): string {
  const words = speech.wording.sensors;
  const percent = Math.abs(fastPercent).toPrecision(2).replace('.', speech.decimalMark);
  return fastPercent > 0 ? words.clockFast({ percent }) : words.clockSlow({ percent });
}

/** A place is remembered from visit to visit, and a sensor may have been moved since. */
export function wasSaidBefore(label: SensorLabel, { startedAtMs }: Recording): boolean {
  return label.place !== 'unknown' && label.givenAtMs < startedAtMs;
}

/** @param said when it was said, already written out */
export function askWhetherStill({ place }: SensorLabel, said: string, { wording }: Speech): string {
  return place === 'unknown' ? '' : wording.sensors.stillSo[place]({ said });
}

/** In a report: what nobody confirmed during the recording says so. */
export function sayPlace(
  label: SensorLabel,
  recording: Recording,
  said: string,
  { wording }: Speech,
): string {
  const place = wording.sensors.places[label.place];
  return wasSaidBefore(label, recording) ? wording.sensors.saidBefore({ place, said }) : place;
}

/** As the technician calls it, else as it calls itself: a name that says nothing is better than none. */
function saySensor(sensor: Pick<RecordedSensor, 'id' | 'name' | 'label'>, speech: Speech): string {
  if (sensor.label !== null && sensor.label.name !== '') return sensor.label.name;
  const own = sayOwnName(sensor, speech);
  return own === '' ? speech.wording.sensors.nameless : own;
}

/** What a sensor calls itself, which is data; what none is is called by this program. */
export function sayOwnName(
  { id, name }: Pick<RecordedSensor, 'id' | 'name'>,
  { wording }: Speech,
): string {
  if (id === TYPED_IN_SENSOR_ID) return wording.sensors.typedIn;
  return id === REHEARSAL_SENSOR_ID ? wording.sensors.simulated : name;
}

/** Of all of a recording, told apart: two of a kind get a number where they have the same name. */
export function saySensors(sensors: readonly RecordedSensor[], speech: Speech): string[] {
  const names = sensors.map((sensor) => saySensor(sensor, speech));
  return names.map((name, at) => {
    const isAlone = names.indexOf(name) === names.lastIndexOf(name);
    const number = names.slice(0, at + 1).filter((other) => other === name).length;
    return isAlone ? name : `${name} (${number})`;
  });
}

/** What it calls itself, where the technician calls it something else: 'VS-2 of its maker, serial 12'. */
export function sayOwnIdentity(sensor: RecordedSensor, speech: Speech): string {
  const { id, manufacturer, model, serial } = sensor;
  const words = speech.wording.sensors;
  const known = [
    sayOwnName(sensor, speech),
    [manufacturer, model].filter(isTold).join(' '),
    isTold(serial) ? words.serial({ serial }) : null,
  ].filter(isTold);
  return known.length > 0 ? known.join(', ') : words.knownAs({ id });
}

function isTold(text: string | null): text is string {
  return text !== null && text !== '';
}
