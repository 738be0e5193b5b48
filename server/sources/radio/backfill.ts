/** Has sensors asked for the readings that never came from them, until the curve is whole again. */
import { READING_FIELDS } from '../../../protocol/profile.ts';
import { decode } from '../../../protocol/profile-codec.ts';
import type { Stretch } from '../number-set.ts';
import type { ResumePoint } from '../resume-point.ts';
import { MissedReadings } from './missed-readings.ts';

interface OfSensor {
  readonly missed: MissedReadings;
  /** It keeps readings, and stands in a connection in which they can be asked for. */
  canAsk: boolean;
  keeps: boolean;
  /** What it has been asked for, as numbers of ours that never wrap. */
  asked: Stretch | null;
}

/** What a screen may know of it. */
interface Missing {
  readonly missed: number;
  readonly fetching: boolean;
}

const WRAP = 2 ** 32;

export class Backfill {
  readonly #sensors = new Map<string, OfSensor>();
  readonly #fetch: (sensorId: string, stretch: Stretch) => void;

  /** @param fetch asks one sensor for one stretch; answered by `ended` */
  constructor(fetch: (sensorId: string, stretch: Stretch) => void) {
    this.#fetch = fetch;
  }

  /**
   * A sensor has said how many readings it keeps: the beginning of a connection.
   * @param before where its readings stood when the bridge ended, if that is what comes before
   */
  connected(sensorId: string, depth: number, before: ResumePoint | null = null): void {
    const sensor = this.#of(sensorId);
    if (before !== null) sensor.missed.resume(before);
    sensor.keeps = depth > 0;
    sensor.canAsk = depth > 0;
    sensor.asked = null;
    sensor.missed.reconnected();
  }

  disconnected(sensorId: string): void {
    const sensor = this.#sensors.get(sensorId);
    if (sensor === undefined) return;
    sensor.canAsk = false;
    sensor.asked = null;
  }

  reading(sensorId: string, bytes: Uint8Array, fetched: boolean): void {
    const decoded = decode(READING_FIELDS, bytes);
    if (!decoded.ok) return;
    const sensor = this.#of(sensorId);
    sensor.missed.note(decoded.values.boot, decoded.values.sequence, fetched);
    if (!fetched) this.#ask(sensorId, sensor);
  }

  /**
   * @param from the first number that had been asked for, as the sensor counts
   * @param whole the sensor has sent all that it still has of it
   */
  ended(sensorId: string, from: number, whole: boolean): void {
    const sensor = this.#of(sensorId);
    // An answer from the connection before may cross with the request of this one.
    if (sensor.asked === null || asSequence(sensor.asked.from) !== from) return;
    if (whole) sensor.missed.settle(sensor.asked);
    sensor.asked = null;
    this.#ask(sensorId, sensor);
  }

  forget(sensorId: string): void {
    this.#sensors.delete(sensorId);
  }

  missing(sensorId: string): Missing {
    const sensor = this.#sensors.get(sensorId);
    if (sensor?.keeps !== true) return { missed: 0, fetching: false };
    return { missed: sensor.missed.count, fetching: sensor.asked !== null };
  }

  #ask(sensorId: string, sensor: OfSensor): void {
    if (!sensor.canAsk || sensor.asked !== null) return;
    const stretch = sensor.missed.next();
    if (stretch === null) return;
    sensor.asked = stretch;
    const from = asSequence(stretch.from);
    this.#fetch(sensorId, { from, to: from + stretch.to - stretch.from });
  }

  #of(sensorId: string): OfSensor {
    const known = this.#sensors.get(sensorId);
    if (known) return known;
    const created = { missed: new MissedReadings(), canAsk: false, keeps: false, asked: null };
    this.#sensors.set(sensorId, created);
    return created;
  }
}

/** A number as the sensor counts it. */
function asSequence(number: number): number {
  return ((number % WRAP) + WRAP) % WRAP;
}
